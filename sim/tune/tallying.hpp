// Counts what alarms did against what they had to tell.
#pragma once

#include "tune/alarm_trace.hpp"
#include "tune/tally.hpp"
#include "tune/truth.hpp"

namespace podrate::sim {

// Of a trace, what no setting of an alarm changes.
struct TraceTimes {
    std::array<double, kAlarms> judged_h{};
    double first_unix_s = 0.0;            // of the log; what lies wholly outside nobody could be told
    double last_unix_s = 0.0;             //
    double work_h = 0.0;                  // all but stopped
    std::vector<std::int64_t> work_tens;  // stretches of ten minutes of the clock, unix time / 600 s, in
                                          // order, at work for half of the time or more
};
TraceTimes times_of(const AlarmTrace& trace);

// `events` in order of their beginning.
MachineDayTally tally_of(const std::vector<AlarmEvent>& events, const TraceTimes& times,
                         const MachineTruth& truth);

// Adds days and machines up; delays follow one another.
void add_to(AlarmTally& sum, const AlarmTally& other);
void add_to(PanelTally& sum, const PanelTally& other);

// Of the delays; negative where there is none.
double median_delay_s(const AlarmTally& tally);

}  // namespace podrate::sim
