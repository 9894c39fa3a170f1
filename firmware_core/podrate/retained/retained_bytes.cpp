#include "podrate/retained/retained_bytes.hpp"

#include "podrate/retained/crc32.hpp"

namespace podrate {

namespace {

constexpr std::uint32_t kMagic = 0x52445050;  // "PPDR"
constexpr std::size_t kHeadBytes = 8;

}  // namespace

void write_now(const RetainedNow& now, std::uint8_t* bytes) {
    ByteWriter writer(bytes);
    retained::visit_now(writer, now);
}

bool read_now(const std::uint8_t* bytes, std::size_t count, RetainedNow& now) {
    ByteReader reader(bytes, count);
    retained::visit_now(reader, now);
    return count == kNowBytes && reader.good();
}

std::uint32_t mark_of(const RetainedState& state) {
    std::uint8_t bytes[kLoadsBytes + 1 + std::size_t{8} * ClockMemory::kMost];
    ByteWriter writer(bytes);
    retained::visit_loads(writer, state.loads);
    writer.word(state.clock.count, 1);
    for (const ClockPiece& piece : state.clock.pieces) writer.moment(piece.from_us);
    return crc32(bytes, sizeof bytes);
}

void write_whole(const RetainedState& state, std::uint8_t* bytes) {
    ByteWriter writer(bytes);
    retained::visit_now(writer, state.now);
    retained::visit_loads(writer, state.loads);
    retained::visit_learnt(writer, state.learnt);
    retained::visit_clock(writer, state.clock);
}

bool read_whole(const std::uint8_t* bytes, std::size_t count, RetainedState& state) {
    ByteReader reader(bytes, count);
    retained::visit_now(reader, state.now);
    retained::visit_loads(reader, state.loads);
    retained::visit_learnt(reader, state.learnt);
    retained::visit_clock(reader, state.clock);
    return count == kWholeBytes && reader.good();
}

void write_saved(const RetainedState& state, std::uint8_t* bytes) {
    ByteWriter head(bytes);
    head.word(kMagic, 4);
    head.word(kRetainedVersion, 2);
    head.word(kWholeBytes, 2);
    write_whole(state, bytes + kHeadBytes);
    ByteWriter tail(bytes + kHeadBytes + kWholeBytes);
    tail.word(crc32(bytes, kHeadBytes + kWholeBytes), 4);
}

ReadResult read_saved(const std::uint8_t* bytes, std::size_t count, RetainedState& state) {
    ByteReader head(bytes, count);
    const std::uint64_t magic = head.word(4);
    const std::uint64_t version = head.word(2);
    const auto length = static_cast<std::size_t>(head.word(2));
    if (!head.good() || magic != kMagic || count != kHeadBytes + length + 4) return ReadResult::damaged;
    ByteReader tail(bytes + kHeadBytes + length, 4);
    if (tail.word(4) != crc32(bytes, kHeadBytes + length)) return ReadResult::damaged;
    if (version != kRetainedVersion) return ReadResult::other_version;
    return read_whole(bytes + kHeadBytes, length, state) ? ReadResult::good : ReadResult::damaged;
}

}  // namespace podrate
