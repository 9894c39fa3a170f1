#include "tune/tallying.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "podrate/alarm/choices.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kTenUs = 600 * kSecondUs;
// Rates of ten minutes as EEMUA 191, ISA-18.2 and IEC 62682 judge them for one operator: one alarm is very
// likely acceptable, two are about the most that can be managed, more than ten are a flood.
constexpr int kAcceptable = 1;
constexpr int kManageable = 2;
constexpr int kFlood = 10;

std::vector<AlarmSpan> of_alarm(const std::vector<AlarmEvent>& events, AlarmId alarm) {
    std::vector<AlarmSpan> spans;
    for (const AlarmEvent& event : events) {
        if (event.alarm == alarm)
            spans.push_back(
                {static_cast<double>(event.start_us) / 1e6, static_cast<double>(event.end_us) / 1e6});
    }
    return spans;
}

// What the log saw of them: none is missed, or told late, for what was before or after it.
std::vector<AlarmSpan> within_log(const std::vector<AlarmSpan>& spans, const TraceTimes& times) {
    std::vector<AlarmSpan> seen;
    for (const AlarmSpan& span : spans) {
        if (span.end_unix_s < times.first_unix_s || span.start_unix_s > times.last_unix_s) continue;
        seen.push_back({std::max(span.start_unix_s, times.first_unix_s), span.end_unix_s});
    }
    return seen;
}

AlarmTally tally_alarm(const AlarmOutcomes& outcomes, double judged_h, const AlarmTruth& truth) {
    AlarmTally tally;
    tally.alarms = static_cast<int>(outcomes.alarms.size());
    tally.chattered = chattered_in(outcomes.alarms);
    for (const AlarmSpan& alarm : outcomes.alarms) tally.in_alarm_s += alarm.end_unix_s - alarm.start_unix_s;
    tally.judged_h = judged_h;
    if (!truth.known) return tally;
    tally.episodes = static_cast<int>(outcomes.due.size());
    for (const double after_s : outcomes.told_after_s) {
        if (after_s < 0.0) continue;
        ++tally.told;
        tally.delays_s.push_back(static_cast<float>(after_s));
    }
    tally.false_alarms =
        static_cast<int>(std::count(outcomes.for_nothing.begin(), outcomes.for_nothing.end(), true));
    for (const double idle_s : outcomes.idle_s) tally.idle_s += idle_s;
    tally.known_h = judged_h;
    if (truth.looked_at.empty()) return tally;
    double known_h = 0.0;
    for (const AlarmSpan& span : truth.looked_at) known_h += (span.end_unix_s - span.start_unix_s) / 3600.0;
    tally.known_h = std::min(judged_h, known_h);
    return tally;
}

PanelTally tally_panel(const std::vector<AlarmEvent>& events, const TraceTimes& times) {
    PanelTally panel;
    panel.alarms = static_cast<int>(events.size());
    panel.work_h = times.work_h;
    std::map<std::int64_t, int> in_ten;
    for (const std::int64_t ten : times.work_tens) in_ten[ten] = 0;
    for (const AlarmEvent& event : events) ++in_ten[event.start_us / kTenUs];
    panel.tens = static_cast<int>(in_ten.size());
    for (const auto& [ten, alarms] : in_ten) {
        panel.tens_over_one += alarms > kAcceptable ? 1 : 0;
        panel.tens_over_two += alarms > kManageable ? 1 : 0;
        panel.tens_in_flood += alarms > kFlood ? 1 : 0;
        panel.most_in_ten = std::max(panel.most_in_ten, alarms);
    }
    return panel;
}

}  // namespace

TraceTimes times_of(const AlarmTrace& trace) {
    TraceTimes times;
    times.judged_h = judged_hours(trace);
    if (trace.size() > 0) times.first_unix_s = static_cast<double>(trace.scene(0).now_us) / 1e6;
    times.last_unix_s = static_cast<double>(trace.last_us()) / 1e6;
    std::map<std::int64_t, TimeUs> work_us;
    TimeUs all_us = 0;
    TimeUs before_us = 0;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const AlarmScene scene = trace.scene(i);
        const TimeUs passed_us =
            i > 0 ? std::min(scene.now_us - before_us, choices::alarm::kCallLastsUs) : TimeUs(0);
        before_us = scene.now_us;
        if (scene.state == WorkState::stopped) continue;
        work_us[scene.now_us / kTenUs] += passed_us;
        all_us += passed_us;
    }
    times.work_h = static_cast<double>(all_us) / 3.6e9;
    for (const auto& [ten, us] : work_us) {
        if (2 * us >= kTenUs) times.work_tens.push_back(ten);
    }
    return times;
}

// Outside of what was looked at nobody can say that an alarm was false.
AlarmOutcomes outcomes_of(const std::vector<AlarmEvent>& events, AlarmId alarm, const AlarmTruth& truth,
                          const TraceTimes& times) {
    AlarmOutcomes outcomes;
    outcomes.alarms = of_alarm(events, alarm);
    outcomes.due = within_log(truth.due, times);
    SpanOutcomes spans =
        span_outcomes(outcomes.alarms, outcomes.due, truth.reasons, truth.near_s, truth.looked_at);
    if (!truth.known) {
        spans.for_nothing.assign(outcomes.alarms.size(), false);
        spans.idle_s.assign(outcomes.alarms.size(), 0.0);
    }
    outcomes.for_nothing = std::move(spans.for_nothing);
    outcomes.idle_s = std::move(spans.idle_s);
    outcomes.told_after_s = std::move(spans.told_after_s);
    return outcomes;
}

MachineDayTally tally_of(const std::vector<AlarmEvent>& events, const TraceTimes& times,
                         const MachineTruth& truth) {
    MachineDayTally tally;
    for (std::size_t i = 0; i < tally.alarms.size(); ++i) {
        const AlarmOutcomes outcomes = outcomes_of(events, static_cast<AlarmId>(i), truth[i], times);
        tally.alarms[i] = tally_alarm(outcomes, times.judged_h[i], truth[i]);
    }
    tally.panel = tally_panel(events, times);
    return tally;
}

void add_to(AlarmTally& sum, const AlarmTally& other) {
    sum.episodes += other.episodes;
    sum.told += other.told;
    sum.delays_s.insert(sum.delays_s.end(), other.delays_s.begin(), other.delays_s.end());
    sum.alarms += other.alarms;
    sum.false_alarms += other.false_alarms;
    sum.chattered += other.chattered;
    sum.in_alarm_s += other.in_alarm_s;
    sum.idle_s += other.idle_s;
    sum.judged_h += other.judged_h;
    sum.known_h += other.known_h;
}

void add_to(PanelTally& sum, const PanelTally& other) {
    sum.alarms += other.alarms;
    sum.tens += other.tens;
    sum.tens_over_one += other.tens_over_one;
    sum.tens_over_two += other.tens_over_two;
    sum.tens_in_flood += other.tens_in_flood;
    sum.most_in_ten = std::max(sum.most_in_ten, other.most_in_ten);
    sum.work_h += other.work_h;
}

double median_delay_s(const AlarmTally& tally) {
    if (tally.delays_s.empty()) return -1.0;
    std::vector<float> sorted = tally.delays_s;
    std::sort(sorted.begin(), sorted.end());
    const std::size_t half = sorted.size() / 2;
    const auto upper = static_cast<double>(sorted[half]);
    return sorted.size() % 2 == 1 ? upper : 0.5 * (static_cast<double>(sorted[half - 1]) + upper);
}

}  // namespace podrate::sim
