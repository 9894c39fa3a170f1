#include "hours/lost_time.hpp"

#include <algorithm>

#include "hours/stop_list.hpp"

namespace podrate::sim {
namespace {

void add_stop(Lost& to, const Stop& stop, double stop_least_s) {
    to.seconds += stop.stretch.seconds();
    to.forgone_kg += stop.forgone_kg;
    if (stop.stretch.seconds() >= stop_least_s) ++to.times;
}

std::vector<Lost> ranked(std::vector<Lost> all) {
    double sum_s = 0.0;
    for (const Lost& lost : all) sum_s += lost.seconds;
    std::stable_sort(all.begin(), all.end(),
                     [](const Lost& a, const Lost& b) { return a.seconds > b.seconds; });
    while (!all.empty() && all.back().seconds <= 0.0) all.pop_back();
    double so_far_s = 0.0;
    for (Lost& lost : all) {
        so_far_s += lost.seconds;
        lost.share = lost.seconds / sum_s;
        lost.cumulated_share = so_far_s / sum_s;
    }
    return all;
}

}  // namespace

std::vector<Lost> lost_by_kind(const DayResult& result, double stop_least_s) {
    std::vector<Lost> kinds(kTimeKinds);
    for (std::size_t i = 0; i < kTimeKinds; ++i) {
        kinds[i].kind = static_cast<TimeKind>(i);
        kinds[i].name = words_of(kinds[i].kind);
    }
    for (const MachineResult& machine : result.machines) {
        if (!machine.usable) continue;
        for (const Stop& stop : stops_of(machine.id, machine.stretches, 0.0))
            add_stop(kinds[static_cast<std::size_t>(stop.stretch.kind)], stop, stop_least_s);
    }
    return ranked(std::move(kinds));
}

std::vector<Lost> lost_by_machine(const DayResult& result, double stop_least_s) {
    std::vector<Lost> machines;
    for (const MachineResult& machine : result.machines) {
        if (!machine.usable) continue;
        machines.push_back({machine.id});
        for (const Stop& stop : stops_of(machine.id, machine.stretches, 0.0))
            add_stop(machines.back(), stop, stop_least_s);
    }
    return ranked(std::move(machines));
}

}  // namespace podrate::sim
