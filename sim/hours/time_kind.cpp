#include "hours/time_kind.hpp"

namespace podrate::sim {

const char* name_of(TimeKind kind) {
    return kind == TimeKind::no_log ? "no_log" : podrate::name_of(static_cast<WorkState>(kind));
}

const char* words_of(TimeKind kind) {
    static constexpr std::array<const char*, kTimeKinds> kWords = {
        "harvesting", "turning",    "paused in crop", "waiting to tip",
        "tipping",    "travelling", "stopped",        "no log"};
    return kWords[static_cast<std::size_t>(kind)];
}

}  // namespace podrate::sim
