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

SpanScore score_spans(const std::vector<AlarmSpan>& alarms, const std::vector<AlarmSpan>& episodes,
                      const std::vector<AlarmSpan>& reasons, double near_s) {
    SpanScore score;
    for (const AlarmSpan& episode : episodes) {
        const AlarmSpan* alarm = first_span_in(alarms, episode.start_unix_s, episode.end_unix_s + near_s);
        if (alarm == nullptr) continue;
        ++score.told;
        score.delays_s.push_back(std::max(0.0, alarm->start_unix_s - episode.start_unix_s));
    }
    for (std::size_t a = 0; a < alarms.size(); ++a) {
        const AlarmSpan& alarm = alarms[a];
        if (first_span_in(reasons, alarm.start_unix_s - near_s, alarm.end_unix_s + near_s) == nullptr)
            ++score.false_alarms;
        if (a + 1 >= kChatterCount &&
            alarm.start_unix_s - alarms[a + 1 - kChatterCount].start_unix_s <= kChatterS)
            ++score.chattered;
    }
    return score;
}

}  // namespace podrate::sim
