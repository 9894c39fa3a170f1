// RetainedState as bytes: a fixed layout, little end first, no struct dumped.
#pragma once

#include <cstddef>
#include <cstdint>

#include "podrate/retained/bytes.hpp"
#include "podrate/retained/fields.hpp"

namespace podrate {

namespace retained {

constexpr std::size_t now_bytes() {
    ByteCounter counter;
    const RetainedNow now;
    visit_now(counter, now);
    return counter.size();
}

constexpr std::size_t loads_bytes() {
    ByteCounter counter;
    const RetainedLoads loads;
    visit_loads(counter, loads);
    return counter.size();
}

constexpr std::size_t slow_bytes() {
    ByteCounter counter;
    const RetainedLearnt learnt;
    const ClockMemory clock;
    visit_learnt(counter, learnt);
    visit_clock(counter, clock);
    return counter.size();
}

}  // namespace retained

inline constexpr std::size_t kNowBytes = retained::now_bytes();
inline constexpr std::size_t kLoadsBytes = retained::loads_bytes();
// now, loads, what was learnt, clock: in that order.
inline constexpr std::size_t kWholeBytes = kNowBytes + kLoadsBytes + retained::slow_bytes();

void write_now(const RetainedNow& now, std::uint8_t* bytes);                    // kNowBytes
bool read_now(const std::uint8_t* bytes, std::size_t count, RetainedNow& now);  // false: not to be believed

// CRC-32 of what a RetainedNow leaves out and yet belongs to: the loads, and where pieces of UTC begin.
std::uint32_t mark_of(const RetainedState& state);

void write_whole(const RetainedState& state, std::uint8_t* bytes);  // kWholeBytes
bool read_whole(const std::uint8_t* bytes, std::size_t count, RetainedState& state);

// The same with version, length and CRC-32 about it, for whoever keeps it elsewhere than in a journal.
inline constexpr std::size_t kSavedBytes = kWholeBytes + 12;
void write_saved(const RetainedState& state, std::uint8_t* bytes);  // kSavedBytes

enum class ReadResult : std::uint8_t { good, damaged, other_version };
ReadResult read_saved(const std::uint8_t* bytes, std::size_t count, RetainedState& state);

}  // namespace podrate
