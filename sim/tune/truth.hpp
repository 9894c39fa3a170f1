// What alarms had to tell of one machine's day, as far as anybody knows.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "podrate/alarm/alarm_panel.hpp"
#include "score/alarm_spans.hpp"

namespace podrate::sim {

enum class EpisodeSource : std::uint8_t {
    truth,   // of a synthetic day
    marked,  // by hand, in episodes.csv
    trays,   // counted on the ground
};

// By alarm; nothing where nobody knows what it had to tell.
using KnownFrom = std::array<std::optional<EpisodeSource>, kAlarms>;

// Something that an alarm had to tell, or word that it had nothing to. Times as in the machine's log.
struct Episode {
    std::string machine;
    AlarmId alarm = AlarmId::loss_high;
    double start_unix_s = 0.0;
    double end_unix_s = 0.0;
    EpisodeSource source = EpisodeSource::truth;
    std::uint64_t line = 0;  // of episodes.csv
    bool none = false;       // somebody has looked at the machine's day: nothing was to be told
};

// Of one alarm. Spans are in order and do not overlap.
struct AlarmTruth {
    bool known = false;                // false: nobody knows; counted by its burden alone
    std::vector<AlarmSpan> due;        // to be told
    std::vector<AlarmSpan> reasons;    // due, and what else makes an alarm right without having to be told
    std::vector<AlarmSpan> looked_at;  // nothing is known outside of these; empty: all the day is known
    double near_s = 0.0;               // so long after its end an alarm still tells, or has its reason
    EpisodeSource source = EpisodeSource::truth;
};

using MachineTruth = std::array<AlarmTruth, kAlarms>;

}  // namespace podrate::sim
