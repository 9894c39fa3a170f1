#include "podrate/retained/journal_scan.hpp"

#include "podrate/retained/crc32.hpp"

namespace podrate {

namespace {

constexpr std::uint32_t kMostSequence = 0xF0000000U;  // a century of seconds: nobody has written more
constexpr std::uint32_t kMostPayload = 4096;          // of any version

}  // namespace

void JournalScan::look_at(std::uint32_t bank) {
    here_good_ = false;
    const std::uint32_t unit = Journal::padded(1, flash_.write_bytes);
    for (std::uint32_t offset = 0; offset < flash_.bank_bytes;) {
        const std::uint32_t count = look_at_record(bank, offset);
        offset += count > 0 ? Journal::padded(count, flash_.write_bytes) : unit;
    }
}

std::uint32_t JournalScan::look_at_record(std::uint32_t bank, std::uint32_t offset) {
    constexpr auto kHead = static_cast<std::uint32_t>(Journal::kHeadBytes);
    if (flash_.read(flash_.context, bank, offset, record_, kHead) != 0) {
        failed_ = true;
        return 0;
    }
    for (std::uint32_t i = 0; i < kHead; ++i) any_byte_ = any_byte_ || record_[i] != flash_.erased;
    ByteReader head(record_, kHead);
    const auto mark = static_cast<std::uint8_t>(head.word(1));
    const auto kind = static_cast<std::uint8_t>(head.word(1));
    const auto payload = static_cast<std::uint32_t>(head.word(2));
    const auto sequence = static_cast<std::uint32_t>(head.word(4));
    const std::uint32_t left = flash_.bank_bytes - offset;
    if (mark != Journal::kMark || payload > kMostPayload || left < kHead + payload + 4) return 0;
    std::uint32_t crc = crc32(record_, kHead);
    // What does not fit into the buffer is of another version, and only its CRC counts.
    const std::uint32_t end = offset + kHead + payload;
    std::uint32_t count = 0;
    for (std::uint32_t at = offset + kHead; at < end; at += count) {
        count = end - at < sizeof record_ ? end - at : static_cast<std::uint32_t>(sizeof record_);
        if (flash_.read(flash_.context, bank, at, record_, count) != 0) return 0;
        crc = crc32(record_, count, crc);
    }
    std::uint8_t tail[4];
    if (flash_.read(flash_.context, bank, end, tail, 4) != 0 || ByteReader(tail, 4).word(4) != crc) return 0;
    if ((kind >> 4U) != kRetainedVersion) {
        any_other_version_ = true;
    } else if (sequence < kMostSequence) {
        take(bank, kind & 15U, sequence, payload);
    }
    return kHead + payload + 4;
}

void JournalScan::take(std::uint32_t bank, std::uint8_t kind, std::uint32_t sequence,
                       std::uint32_t payload_bytes) {
    if (sequence > sequence_) sequence_ = sequence;
    if (kind == Journal::kLong && payload_bytes == kWholeBytes) {
        here_good_ = read_whole(record_, payload_bytes, here_);
        here_mark_ = mark_of(here_);
    } else if (kind == Journal::kShort && payload_bytes == 4 + kNowBytes) {
        // One whose whole record is missing belongs to loads that nobody knows.
        RetainedNow now;
        const bool belongs = here_good_ && ByteReader(record_, 4).word(4) == here_mark_;
        if (!belongs || !read_now(record_ + 4, kNowBytes, now)) return;
        here_.now = now;
    } else {
        return;
    }
    if (!here_good_ || (found_ && sequence < found_sequence_)) return;
    found_ = true;
    found_sequence_ = sequence;
    state_ = here_;
    bank_ = bank;
}

JournalResult JournalScan::result() const {
    if (found_) return JournalResult::good;
    if (failed_) return JournalResult::flash_failed;
    if (any_other_version_) return JournalResult::other_version;
    return any_byte_ ? JournalResult::damaged : JournalResult::nothing;
}

}  // namespace podrate
