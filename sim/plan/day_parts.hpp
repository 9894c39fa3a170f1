// A machine's stretches read as a day's parts: work, tips with their waits, stops, moves to another field.
#pragma once

#include <vector>

#include "plan/gang_books.hpp"

namespace podrate::sim {

inline constexpr double kShortestStopS = 60.0;  // shorter ones are part of the work
inline constexpr double kBreakdownS = 600.0;    // from there on a stop counts as a breakdown

struct Tip {
    TimeUs start_us = 0;  // of the wait
    double wait_s = 0.0;  // with raising the hopper
    double tip_s = 0.0;
    double load_kg = 0.0;  // that left
};

struct PastStop {
    TimeUs start_us = 0;
    double seconds = 0.0;
};

enum class Doing { work, waiting, tipping, stopped, moving };

struct DayParts {
    std::vector<Tip> tips;
    std::vector<PastStop> stops;   // that have ended
    std::vector<PastStop> moves;   // that have ended
    double working_s = 0.0;        // harvest, turns, short halts
    double harvesting_s = 0.0;     // of those
    Doing doing = Doing::stopped;  // now
    double doing_s = 0.0;          // for so long

    // Seconds of work between two moments.
    [[nodiscard]] double working_s_between(TimeUs from_us, TimeUs to_us) const;
    struct Span {
        TimeUs start_us = 0;
        TimeUs end_us = 0;
    };
    std::vector<Span> work;
};

// A stop right between a wait and a tip was a wait. Standing before the first harvest is nobody's stop.
// A long drive is a move where the machine ends more than kMoveM from where it began, or, where places are
// not known, where it lasts kMoveS.
DayParts parts_of(const MachineBooks& books);

inline constexpr double kMoveM = 400.0;
inline constexpr double kMoveS = 150.0;

}  // namespace podrate::sim
