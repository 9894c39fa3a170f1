#include "tune/objective.hpp"

#include <algorithm>

#include "tune/alarm_trace.hpp"
#include "tune/tallying.hpp"

namespace podrate::sim {

std::vector<AlarmId> alarms_of_sweep(const std::vector<Swept>& sweep) {
    const bool replays = std::any_of(sweep.begin(), sweep.end(), [](const Swept& swept) {
        return !touches_alarms_alone(*swept.parameter) &&
               swept.parameter->member != &Parameters::drum_blocking_sd;
    });
    std::vector<AlarmId> alarms;
    for (int i = 0; i < kAlarms; ++i) {
        const auto alarm = static_cast<AlarmId>(i);
        const bool set = std::any_of(sweep.begin(), sweep.end(), [alarm](const Swept& swept) {
            return touches_alarm(*swept.parameter, alarm);
        });
        if (replays || set) alarms.push_back(alarm);
    }
    return alarms;
}

double objective_of(const std::vector<MachineDayTally>& places, const std::vector<AlarmId>& alarms,
                    const TuneWeights& weights) {
    double sum = 0.0;
    for (const AlarmId alarm : alarms) {
        AlarmTally tally;
        for (const MachineDayTally& place : places)
            add_to(tally, place.alarms[static_cast<std::size_t>(alarm)]);
        if (tally.episodes > 0) sum += weights.missed * (tally.episodes - tally.told) / tally.episodes;
        if (tally.known_h > 0.0) sum += weights.false_alarms * tally.false_alarms / tally.known_h;
        if (tally.told > 0) sum += weights.delay * median_delay_s(tally);
    }
    return sum;
}

std::size_t best_setting(const TuneTable& table, const std::vector<AlarmId>& alarms,
                         const TuneWeights& weights) {
    std::size_t best = 0;
    double least = 0.0;
    for (std::size_t i = 0; i < table.tallies.size(); ++i) {
        const double value = objective_of(table.tallies[i], alarms, weights);
        if (i > 0 && !(value < least)) continue;
        best = i;
        least = value;
    }
    return best;
}

}  // namespace podrate::sim
