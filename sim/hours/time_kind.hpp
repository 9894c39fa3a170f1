// What a second of a machine's day was: a work state, or a gap in its log.
#pragma once

#include <array>
#include <cstdint>

#include "podrate/work/work_state.hpp"

namespace podrate::sim {

// The work states in their own order, then what no log tells of.
enum class TimeKind : std::uint8_t {
    harvesting,
    turning,
    paused_in_crop,
    waiting,
    tipping,
    travelling,
    stopped,
    no_log,
};

inline constexpr std::size_t kTimeKinds = kWorkStates + 1;

// Seconds by kind.
using KindSeconds = std::array<double, kTimeKinds>;

constexpr TimeKind kind_of(WorkState state) {
    return static_cast<TimeKind>(state);
}
static_assert(kind_of(WorkState::harvesting) == TimeKind::harvesting);
static_assert(kind_of(WorkState::stopped) == TimeKind::stopped);
static_assert(static_cast<std::size_t>(TimeKind::no_log) + 1 == kTimeKinds);

// The word used in files: "harvesting", ..., "no_log".
const char* name_of(TimeKind kind);
// For people: "paused in crop", "waiting to tip", "no log".
const char* words_of(TimeKind kind);

}  // namespace podrate::sim
