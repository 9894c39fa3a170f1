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

// What became of each alarm of one kind and of each episode that it had to tell.
struct AlarmOutcomes {
    std::vector<AlarmSpan> alarms;
    std::vector<bool> for_nothing;     // by alarm; none of a time that nobody looked at
    std::vector<double> idle_s;        // by alarm: stood without a reason, of the time somebody looked at
    std::vector<AlarmSpan> due;        // episodes that the log saw
    std::vector<double> told_after_s;  // by episode; negative: missed
};

// `events` in order of their beginning, of any kind.
AlarmOutcomes outcomes_of(const std::vector<AlarmEvent>& events, AlarmId alarm, const AlarmTruth& truth,
                          const TraceTimes& times);

// The same of all alarms, counted.
MachineDayTally tally_of(const std::vector<AlarmEvent>& events, const TraceTimes& times,
                         const MachineTruth& truth);

// Adds days and machines up; delays follow one another.
void add_to(AlarmTally& sum, const AlarmTally& other);
void add_to(PanelTally& sum, const PanelTally& other);

// Of the delays; negative where there is none.
double median_delay_s(const AlarmTally& tally);

}  // namespace podrate::sim
