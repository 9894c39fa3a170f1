// Alarms of one kind against the times at which they should have stood.
#pragma once

#include <functional>
#include <vector>

namespace podrate::sim {

struct AlarmSpan {
    double start_unix_s = 0.0;
    double end_unix_s = 0.0;
};

// A stretch of seconds, by their places.
struct SecondsSpan {
    std::size_t first = 0;
    std::size_t last = 0;
};

// The longest stretches of seconds 0 to `count` - 1 that are such.
std::vector<SecondsSpan> spans_where(std::size_t count, const std::function<bool(std::size_t)>& such);

// Sorts spans and joins those that overlap.
std::vector<AlarmSpan> joined(std::vector<AlarmSpan> spans);

// Seconds of `span` that lie in `others`, which do not overlap.
double seconds_in(const AlarmSpan& span, const std::vector<AlarmSpan>& others);

// What became of each.
struct SpanOutcomes {
    std::vector<double> told_after_s;  // by episode: from its beginning, 0 where its alarm came just before;
                                       // negative: nothing told it while it lasted or shortly after
    std::vector<bool> for_nothing;     // by alarm: it came without a reason shortly before or after
    std::vector<double> idle_s;        // by alarm: for how long it stood without a reason, as far as anybody
                                       // looked
};

// An alarm that has stood idle tells nothing new: an episode that it meets is not told by it.
// All in order of their beginning; `alarms`, `reasons` and `looked_at` do not overlap among themselves.
// `near_s`: what counts as shortly. `looked_at`: nothing is known outside of these; empty: all is known.
SpanOutcomes span_outcomes(const std::vector<AlarmSpan>& alarms, const std::vector<AlarmSpan>& episodes,
                           const std::vector<AlarmSpan>& reasons, double near_s,
                           const std::vector<AlarmSpan>& looked_at = {});

// Alarms that were at least the third within a minute.
int chattered_in(const std::vector<AlarmSpan>& alarms);

struct SpanScore {
    int told = 0;                  // episodes that an alarm told while they lasted or shortly after
    std::vector<double> delays_s;  // of those, from the episode's beginning; 0 where it came just before
    int false_alarms = 0;          // that came without a reason shortly before or after
    int chattered = 0;             // alarms that were at least the third within a minute
};

// The same, counted.
SpanScore score_spans(const std::vector<AlarmSpan>& alarms, const std::vector<AlarmSpan>& episodes,
                      const std::vector<AlarmSpan>& reasons, double near_s);

// The first of `spans`, which do not overlap, that has not ended before `from_s` and begins by `to_s`;
// nullptr where there is none.
const AlarmSpan* first_span_in(const std::vector<AlarmSpan>& spans, double from_s, double to_s);

}  // namespace podrate::sim
