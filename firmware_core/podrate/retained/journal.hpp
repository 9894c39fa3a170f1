// State that outlasts a power cut at any byte, on two banks of erasable flash.
#pragma once

#include <cstddef>
#include <cstdint>

#include "podrate/retained/retained_bytes.hpp"

namespace podrate {

// The flash as its driver sees it. Each function returns 0 where all went well; anything else counts as a
// failure of that bank. None may return before the flash has done its work. `bank` is 0 or 1.
struct Flash {
    void* context = nullptr;
    std::int32_t (*read)(void* context, std::uint32_t bank, std::uint32_t offset, std::uint8_t* bytes,
                         std::uint32_t count) = nullptr;
    // Only to bytes erased before, never twice; offset and count are multiples of write_bytes.
    std::int32_t (*write)(void* context, std::uint32_t bank, std::uint32_t offset, const std::uint8_t* bytes,
                          std::uint32_t count) = nullptr;
    std::int32_t (*erase)(void* context, std::uint32_t bank) = nullptr;
    std::uint32_t bank_bytes = 0;   // of each; a multiple of write_bytes, kLeastBankBytes to 16 MiB
    std::uint32_t write_bytes = 8;  // what is programmed at once: 1, 2, 4, 8, 16 or 32
    std::uint8_t erased = 0xFF;     // what an erased byte reads as
};

enum class JournalResult : std::uint8_t {
    good,
    nothing,        // both banks are blank: a first start
    damaged,        // there is something, but no record that can be believed: a clean start
    other_version,  // there are records, of another version only: a clean start
    flash_failed,   // the flash said so, or did not read back what was written; tried again next time
    bad_flash,      // the description of the flash cannot be right
};

// Records follow one another in a bank: a head of 8 bytes (mark, kind and version, length, sequence number),
// what is kept, CRC-32. A short one each second holds RetainedNow; a whole one holds everything, stands at
// the beginning of each bank, and is written where a load, a tip or a sensor changes what the short one
// leaves out, and once a minute. A bank that is full is left alone and the other is erased, so what was last
// written well is never touched before something newer has been written and read back. Each start begins a
// new bank too: the bytes after a torn write may look erased and not be.
class Journal {
  public:
    static constexpr std::size_t kHeadBytes = 8;
    static constexpr std::size_t kShortBytes = kHeadBytes + kNowBytes + 4 + 4;
    static constexpr std::size_t kLongBytes = kHeadBytes + kWholeBytes + 4;
    static constexpr std::uint32_t kMostWriteBytes = 32;
    static constexpr std::uint32_t kMostBankBytes = 1U << 24U;
    static constexpr std::uint32_t kLeastBankBytes = 2048;

    explicit Journal(const Flash& flash = Flash{}) : flash_(flash) {}

    // Finds the newest record that can be believed and gives what it holds; `state` is only changed where it
    // returns good. Reads each bank once, whatever is in it. Call it before the first append().
    JournalResult start(RetainedState& state);

    // Keeps that state; erases a bank now and then.
    JournalResult append(const RetainedState& state);

    // Erases the bank to come at a time when nobody minds (a sector may take seconds), if there is one to be
    // erased: the append() that needs it then does not.
    JournalResult erase_ahead();

    // Of the bank in use; 0 before the first append().
    [[nodiscard]] std::uint32_t used_bytes() const { return at_; }
    [[nodiscard]] std::uint32_t erases() const { return erases_; }  // since start()

    // What a record of that many bytes takes up.
    static std::uint32_t padded(std::size_t bytes, std::uint32_t write_bytes);

  private:
    friend class JournalScan;
    static constexpr std::uint8_t kMark = 0x5A;
    static constexpr std::uint8_t kShort = 1;
    static constexpr std::uint8_t kLong = 2;
    static constexpr std::uint32_t kNoBank = 2;

    [[nodiscard]] bool sound() const;
    JournalResult begin_bank(const RetainedState& state);
    JournalResult append_whole(const RetainedState& state);
    JournalResult append_short(const RetainedNow& now);
    JournalResult put(std::uint8_t* record, std::uint8_t kind, std::size_t payload_bytes);
    [[nodiscard]] bool reads_back(const std::uint8_t* record, std::uint32_t count) const;

    Flash flash_;
    std::uint32_t kept_bank_ = kNoBank;    // holds the newest good record; never erased
    std::uint32_t bank_ = kNoBank;         // in use
    std::uint32_t erased_bank_ = kNoBank;  // erased and not yet written
    std::uint32_t at_ = 0;
    std::uint32_t sequence_ = 0;  // of the next record
    std::uint32_t erases_ = 0;
    std::uint32_t mark_ = 0;  // of the loads in the last whole record
    TimeUs whole_us_ = 0;
    bool open_ = false;  // bank_ begins with a whole record
};

}  // namespace podrate
