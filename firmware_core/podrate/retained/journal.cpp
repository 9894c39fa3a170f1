#include "podrate/retained/journal.hpp"

#include "podrate/choices.hpp"
#include "podrate/retained/crc32.hpp"
#include "podrate/retained/journal_scan.hpp"

namespace podrate {

using namespace choices::retained;

std::uint32_t Journal::padded(std::size_t bytes, std::uint32_t write_bytes) {
    const std::uint32_t unit = write_bytes > kHeadBytes ? write_bytes : kHeadBytes;
    return (static_cast<std::uint32_t>(bytes) + unit - 1) / unit * unit;
}

bool Journal::sound() const {
    const std::uint32_t unit = flash_.write_bytes;
    if (flash_.read == nullptr || flash_.write == nullptr || flash_.erase == nullptr) return false;
    if (unit == 0 || unit > kMostWriteBytes || (unit & (unit - 1)) != 0) return false;
    return flash_.bank_bytes >= kLeastBankBytes && flash_.bank_bytes <= kMostBankBytes &&
           flash_.bank_bytes % (unit > kHeadBytes ? unit : kHeadBytes) == 0;
}

JournalResult Journal::start(RetainedState& state) {
    if (!sound()) return JournalResult::bad_flash;
    *this = Journal(flash_);
    JournalScan scan(flash_);
    scan.look_at(0);
    scan.look_at(1);
    sequence_ = scan.sequence() + 1;
    const JournalResult result = scan.result();
    if (result != JournalResult::good) return result;
    kept_bank_ = scan.bank();
    state = scan.state();
    return JournalResult::good;
}

JournalResult Journal::append(const RetainedState& state) {
    if (!sound()) return JournalResult::bad_flash;
    const TimeUs since_us = state.now.time_us - whole_us_;
    const bool whole = !open_ || since_us < 0 || since_us >= kWholeEveryUs || mark_of(state) != mark_;
    const std::uint32_t room = open_ ? flash_.bank_bytes - at_ : 0;
    if (room < padded(whole ? kLongBytes : kShortBytes, flash_.write_bytes)) return begin_bank(state);
    return whole ? append_whole(state) : append_short(state.now);
}

JournalResult Journal::begin_bank(const RetainedState& state) {
    const std::uint32_t next = kept_bank_ == 0 ? 1 : 0;
    open_ = false;
    bank_ = next;
    at_ = 0;
    if (erased_bank_ != next) {
        ++erases_;
        if (flash_.erase(flash_.context, next) != 0) return JournalResult::flash_failed;
    }
    erased_bank_ = kNoBank;
    open_ = true;
    const JournalResult result = append_whole(state);
    if (result == JournalResult::good) kept_bank_ = next;
    return result;
}

JournalResult Journal::erase_ahead() {
    if (!sound()) return JournalResult::bad_flash;
    const std::uint32_t next = kept_bank_ == 0 ? 1 : 0;
    if (!open_ || erased_bank_ == next) return JournalResult::good;
    ++erases_;
    if (flash_.erase(flash_.context, next) != 0) return JournalResult::flash_failed;
    erased_bank_ = next;
    return JournalResult::good;
}

JournalResult Journal::append_whole(const RetainedState& state) {
    std::uint8_t record[kLongBytes + kMostWriteBytes];
    write_whole(state, record + kHeadBytes);
    mark_ = mark_of(state);
    whole_us_ = state.now.time_us;
    return put(record, kLong, kWholeBytes);
}

JournalResult Journal::append_short(const RetainedNow& now) {
    std::uint8_t record[kShortBytes + kMostWriteBytes];
    ByteWriter(record + kHeadBytes).word(mark_, 4);
    write_now(now, record + kHeadBytes + 4);
    return put(record, kShort, 4 + kNowBytes);
}

// A bank that fails is written no more; what it holds stays until the other holds something newer.
JournalResult Journal::put(std::uint8_t* record, std::uint8_t kind, std::size_t payload_bytes) {
    ByteWriter head(record);
    head.word(kMark, 1);
    head.word(static_cast<std::uint64_t>(kind | (kRetainedVersion << 4U)), 1);
    head.word(payload_bytes, 2);
    head.word(sequence_++, 4);
    const std::size_t covered = kHeadBytes + payload_bytes;
    ByteWriter(record + covered).word(crc32(record, covered), 4);
    const std::uint32_t count = padded(covered + 4, flash_.write_bytes);
    for (std::size_t i = covered + 4; i < count; ++i) record[i] = flash_.erased;
    const bool written = flash_.write(flash_.context, bank_, at_, record, count) == 0;
    open_ = written && reads_back(record, count);
    at_ += count;
    return open_ ? JournalResult::good : JournalResult::flash_failed;
}

bool Journal::reads_back(const std::uint8_t* record, std::uint32_t count) const {
    std::uint8_t piece[kMostWriteBytes];
    for (std::uint32_t i = 0; i < count; i += kMostWriteBytes) {
        const std::uint32_t size = count - i < kMostWriteBytes ? count - i : kMostWriteBytes;
        if (flash_.read(flash_.context, bank_, at_ + i, piece, size) != 0) return false;
        for (std::uint32_t k = 0; k < size; ++k) {
            if (piece[k] != record[i + k]) return false;
        }
    }
    return true;
}

}  // namespace podrate
