#include "series/trace.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace podrate::ui {
namespace {

constexpr std::size_t kNearby = 2;
constexpr int kAhead = 8;  // pixels

// First index from `at` on whose time is `key` or later. `stride`: how far it was the last time.
std::size_t step_to(const std::vector<Millis>& times, std::size_t at, std::size_t stride, double key) {
    const std::size_t count = times.size();
    if (at >= count || times[at] >= key) return at;
    std::size_t low = at;  // before the key
    std::size_t high = 0;
    // Rows come evenly: mostly the answer is as far as before.
    if (stride > kNearby && at + stride - kNearby < count && times[at + stride - kNearby] < key)
        low = at + stride - kNearby;
    for (std::size_t reach = 2 * kNearby;; reach *= 2) {
        high = std::min(low + reach, count);
        if (high == count || times[high] >= key) break;
        low = high;
    }
    const auto begin = times.begin();
    const auto found =
        std::lower_bound(begin + static_cast<std::ptrdiff_t>(low), begin + static_cast<std::ptrdiff_t>(high),
                         key, [](Millis t, double wanted) { return t < wanted; });
    return static_cast<std::size_t>(found - begin);
}

class Tracer {
  public:
    Tracer(const std::vector<Millis>& times, const Column& column, const TimeRange& range, int width_px,
           std::vector<TraceMark>& marks)
        : times_(times),
          column_(column),
          from_ms_(range.from_ms),
          pixel_ms_(range.span_ms() / width_px),
          marks_(marks) {}

    void run(const TimeRange& range, int width_px) {
        marks_.clear();
        const double first_edge = std::floor(range.from_ms / pixel_ms_);
        const std::size_t begin = index_from(times_, first_edge * pixel_ms_);
        if (begin > 0) add_single(begin - 1);
        // Each pixel's end first, and its memory asked for some pixels ahead of its use: a wide range touches
        // so many places that waiting for them would take most of the time.
        std::size_t ends[kAhead] = {};
        std::size_t found = begin;
        std::size_t stride = 0;
        std::size_t at = begin;
        for (int pixel = 0; pixel <= width_px + kAhead; ++pixel) {
            if (pixel >= kAhead) {
                const int due = pixel - kAhead;
                const std::size_t next = ends[due % kAhead];
                if (next > at) add(at, next, (first_edge + due + 0.5) * pixel_ms_);
                at = next;
            }
            if (pixel > width_px) continue;
            const std::size_t end = step_to(times_, found, stride, (first_edge + pixel + 1) * pixel_ms_);
            if (end > found) stride = end - found;
            found = end;
            ends[pixel % kAhead] = found;
            column_.fetch(found);
        }
        if (at < times_.size()) add_single(at);
    }

  private:
    void add_single(std::size_t at) { add(at, at + 1, 0.0); }

    void add(std::size_t from, std::size_t to, double middle_ms) {
        TraceMark mark;
        mark.single = to - from == 1;
        mark.x_px = static_cast<float>(((mark.single ? times_[from] : middle_ms) - from_ms_) / pixel_ms_);
        mark.first = column_.value[from];
        mark.last = column_.value[to - 1];
        mark.line = mark.single ? Extent{mark.first, mark.first} : column_.line_over(from, to);
        mark.band = mark.line;
        if (column_.has_band()) mark.band = mark.single ? column_.band_at(from) : column_.band_over(from, to);
        mark.joined = !marks_.empty() && times_[from] - times_[from - 1] <= kLongestGapMs;
        marks_.push_back(mark);
    }

    const std::vector<Millis>& times_;
    const Column& column_;
    double from_ms_;
    double pixel_ms_;
    std::vector<TraceMark>& marks_;
};

}  // namespace

void trace(const MachineSeries& machine, const Column& column, const TimeRange& range, int width_px,
           std::vector<TraceMark>& marks) {
    Tracer(machine.times(column), column, range, width_px, marks).run(range, width_px);
}

Heights heights(const MachineSeries& machine, const Column& column, const TimeRange& range) {
    const std::vector<Millis>& times = machine.times(column);
    std::size_t from = index_from(times, range.from_ms);
    std::size_t to = index_from(times, range.to_ms);
    if (from > 0 && range.from_ms - times[from - 1] <= kLongestGapMs) --from;
    if (to < times.size() && times[to] - range.to_ms <= kLongestGapMs) ++to;
    return {column.line_over(from, to), column.band_over(from, to)};
}

}  // namespace podrate::ui
