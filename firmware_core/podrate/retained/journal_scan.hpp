// Finds the newest record of a journal that can be believed.
#pragma once

#include "podrate/retained/journal.hpp"

namespace podrate {

class JournalScan {
  public:
    explicit JournalScan(const Flash& flash) : flash_(flash) {}

    // Goes through a bank once, from its beginning; a damaged record is stepped over, since others after it
    // may be good.
    void look_at(std::uint32_t bank);

    // What was found in the banks looked at.
    [[nodiscard]] JournalResult result() const;
    [[nodiscard]] const RetainedState& state() const { return state_; }
    [[nodiscard]] std::uint32_t bank() const { return bank_; }
    // The highest number of any good record.
    [[nodiscard]] std::uint32_t sequence() const { return sequence_; }

  private:
    // Bytes that a good record takes up, 0 where there is none.
    std::uint32_t look_at_record(std::uint32_t bank, std::uint32_t offset);
    void take(std::uint32_t bank, std::uint8_t kind, std::uint32_t sequence, std::uint32_t payload_bytes);

    Flash flash_;
    std::uint8_t record_[Journal::kLongBytes] = {};
    RetainedState here_;  // as the bank's records so far tell
    bool here_good_ = false;
    std::uint32_t here_mark_ = 0;
    RetainedState state_;
    bool found_ = false;
    std::uint32_t found_sequence_ = 0;
    std::uint32_t bank_ = 0;
    std::uint32_t sequence_ = 0;
    bool any_byte_ = false;
    bool any_other_version_ = false;
    bool failed_ = false;
};

}  // namespace podrate
