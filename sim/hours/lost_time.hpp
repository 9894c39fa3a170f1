// Lost time as a ranking: what kept the machines from harvesting, largest first.
#pragma once

#include <string>
#include <vector>

#include "replay/day_replay.hpp"

namespace podrate::sim {

struct Lost {
    std::string name;                  // a kind of time, for people, or a machine's id
    TimeKind kind = TimeKind::no_log;  // where it is a kind
    double seconds = 0.0;
    std::size_t times = 0;         // stretches of at least the least length of a stop
    double forgone_kg = 0.0;       // of all its stretches, long and short; none for time without log
    double share = 0.0;            // of all time that is not harvest
    double cumulated_share = 0.0;  // with all that stand before it
};

// Over all machines that were used, by kind. Kinds that did not come are left out; time without log has its
// own place, since nobody knows what it was.
std::vector<Lost> lost_by_kind(const DayResult& result, double stop_least_s);
// The same seconds by machine.
std::vector<Lost> lost_by_machine(const DayResult& result, double stop_least_s);

}  // namespace podrate::sim
