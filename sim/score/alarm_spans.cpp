#include "score/alarm_spans.hpp"

#include <algorithm>

#include "podrate/alarm/choices.hpp"

namespace podrate::sim {
namespace {

constexpr double kChatterS = static_cast<double>(choices::alarm::kChatterUs) / 1e6;
constexpr std::size_t kChatterCount = choices::alarm::kChatterActivations;

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

SpanOutcomes span_outcomes(const std::vector<AlarmSpan>& alarms, const std::vector<AlarmSpan>& episodes,
                           const std::vector<AlarmSpan>& reasons, double near_s) {
    SpanOutcomes outcomes;
    for (const AlarmSpan& episode : episodes) {
        const AlarmSpan* alarm = first_span_in(alarms, episode.start_unix_s, episode.end_unix_s + near_s);
        outcomes.told_after_s.push_back(
            alarm == nullptr ? -1.0 : std::max(0.0, alarm->start_unix_s - episode.start_unix_s));
    }
    for (const AlarmSpan& alarm : alarms)
        outcomes.for_nothing.push_back(
            first_span_in(reasons, alarm.start_unix_s - near_s, alarm.end_unix_s + near_s) == nullptr);
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
