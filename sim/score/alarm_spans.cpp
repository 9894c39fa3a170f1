#include "score/alarm_spans.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "podrate/alarm/choices.hpp"

namespace podrate::sim {
namespace {

constexpr double kChatterS = static_cast<double>(choices::alarm::kChatterUs) / 1e6;
constexpr std::size_t kChatterCount = choices::alarm::kChatterActivations;
constexpr double kEver = std::numeric_limits<double>::infinity();

// What of `alarm` is further than `near_s` from every reason.
std::vector<AlarmSpan> idle_spans(const AlarmSpan& alarm, const std::vector<AlarmSpan>& reasons,
                                  double near_s) {
    std::vector<AlarmSpan> idle;
    double from_s = alarm.start_unix_s;
    const auto add_until = [&](double until_s) {
        if (until_s > from_s) idle.push_back({from_s, until_s});
    };
    const auto ends_before = [](const AlarmSpan& reason, double at_s) { return reason.end_unix_s < at_s; };
    auto reason = std::lower_bound(reasons.begin(), reasons.end(), from_s - near_s, ends_before);
    for (; reason != reasons.end() && from_s < alarm.end_unix_s; ++reason) {
        add_until(std::min(alarm.end_unix_s, reason->start_unix_s - near_s));
        from_s = std::max(from_s, reason->end_unix_s + near_s);
    }
    add_until(alarm.end_unix_s);
    return idle;
}

}  // namespace

std::vector<SecondsSpan> spans_where(std::size_t count, const std::function<bool(std::size_t)>& such) {
    std::vector<SecondsSpan> spans;
    bool before = false;
    for (std::size_t i = 0; i < count; ++i) {
        const bool is = such(i);
        if (is && !before) spans.push_back({i, i});
        if (is) spans.back().last = i;
        before = is;
    }
    return spans;
}

const AlarmSpan* first_span_in(const std::vector<AlarmSpan>& spans, double from_s, double to_s) {
    const auto it = std::lower_bound(spans.begin(), spans.end(), from_s,
                                     [](const AlarmSpan& span, double at) { return span.end_unix_s < at; });
    return it == spans.end() || it->start_unix_s > to_s ? nullptr : &*it;
}

std::vector<AlarmSpan> joined(std::vector<AlarmSpan> spans) {
    std::sort(spans.begin(), spans.end(),
              [](const AlarmSpan& a, const AlarmSpan& b) { return a.start_unix_s < b.start_unix_s; });
    std::vector<AlarmSpan> whole;
    for (const AlarmSpan& span : spans) {
        if (!whole.empty() && span.start_unix_s <= whole.back().end_unix_s) {
            whole.back().end_unix_s = std::max(whole.back().end_unix_s, span.end_unix_s);
        } else {
            whole.push_back(span);
        }
    }
    return whole;
}

double seconds_in(const AlarmSpan& span, const std::vector<AlarmSpan>& others) {
    double sum_s = 0.0;
    for (const AlarmSpan& other : others)
        sum_s += std::max(0.0, std::min(span.end_unix_s, other.end_unix_s) -
                                   std::max(span.start_unix_s, other.start_unix_s));
    return sum_s;
}

SpanOutcomes span_outcomes(const std::vector<AlarmSpan>& alarms, const std::vector<AlarmSpan>& episodes,
                           const std::vector<AlarmSpan>& reasons, double near_s,
                           const std::vector<AlarmSpan>& looked_at) {
    const auto idle_s = [&](const AlarmSpan& alarm, double until_s) {
        double sum_s = 0.0;
        for (const AlarmSpan& idle : idle_spans({alarm.start_unix_s, until_s}, reasons, near_s))
            sum_s += looked_at.empty() ? idle.end_unix_s - idle.start_unix_s : seconds_in(idle, looked_at);
        return sum_s;
    };
    SpanOutcomes outcomes;
    for (const AlarmSpan& episode : episodes) {
        const double late_s = episode.end_unix_s + near_s;
        const AlarmSpan* alarm = first_span_in(alarms, episode.start_unix_s, late_s);
        if (alarm != nullptr && idle_s(*alarm, episode.start_unix_s) > 0.0)
            alarm = first_span_in(alarms, std::nextafter(alarm->end_unix_s, kEver), late_s);
        outcomes.told_after_s.push_back(
            alarm == nullptr ? -1.0 : std::max(0.0, alarm->start_unix_s - episode.start_unix_s));
    }
    for (const AlarmSpan& alarm : alarms) {
        const AlarmSpan* seen = &alarm;
        if (!looked_at.empty()) seen = first_span_in(looked_at, alarm.start_unix_s, alarm.end_unix_s);
        outcomes.for_nothing.push_back(
            seen != nullptr &&
            first_span_in(reasons, alarm.start_unix_s - near_s,
                          std::max(alarm.start_unix_s, seen->start_unix_s) + near_s) == nullptr);
        outcomes.idle_s.push_back(idle_s(alarm, alarm.end_unix_s));
    }
    return outcomes;
}

int chattered_in(const std::vector<AlarmSpan>& alarms) {
    int chattered = 0;
    for (std::size_t a = kChatterCount - 1; a < alarms.size(); ++a) {
        if (alarms[a].start_unix_s - alarms[a + 1 - kChatterCount].start_unix_s <= kChatterS) ++chattered;
    }
    return chattered;
}

SpanScore score_spans(const std::vector<AlarmSpan>& alarms, const std::vector<AlarmSpan>& episodes,
                      const std::vector<AlarmSpan>& reasons, double near_s) {
    const SpanOutcomes outcomes = span_outcomes(alarms, episodes, reasons, near_s);
    SpanScore score;
    for (const double after_s : outcomes.told_after_s) {
        if (after_s < 0.0) continue;
        ++score.told;
        score.delays_s.push_back(after_s);
    }
    score.false_alarms =
        static_cast<int>(std::count(outcomes.for_nothing.begin(), outcomes.for_nothing.end(), true));
    score.chattered = chattered_in(alarms);
    return score;
}

}  // namespace podrate::sim
