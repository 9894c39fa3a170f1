#include "hours/work_pace.hpp"

#include <algorithm>

namespace podrate::sim {

WorkPace::WorkPace(const std::vector<Stretch>& stretches) {
    if (stretches.empty()) return;
    Mark mark;
    mark.time_us = stretches.front().start_us;
    marks_.push_back(mark);
    for (const Stretch& s : stretches) {
        mark.time_us = s.end_us;
        mark.harvested_kg += s.harvested_kg;
        if (s.kind == TimeKind::harvesting) mark.harvesting_s += s.seconds();
        marks_.push_back(mark);
    }
}

// Even within a stretch.
WorkPace::Mark WorkPace::at(TimeUs time_us) const {
    const auto after = std::lower_bound(marks_.begin(), marks_.end(), time_us,
                                        [](const Mark& m, TimeUs t) { return m.time_us < t; });
    if (after == marks_.begin()) return marks_.front();
    if (after == marks_.end()) return marks_.back();
    const Mark& a = *(after - 1);
    const Mark& b = *after;
    const double along =
        static_cast<double>(time_us - a.time_us) / static_cast<double>(b.time_us - a.time_us);
    return {time_us, a.harvesting_s + along * (b.harvesting_s - a.harvesting_s),
            a.harvested_kg + along * (b.harvested_kg - a.harvested_kg)};
}

std::optional<double> WorkPace::kgps_about(TimeUs start_us, TimeUs end_us) const {
    if (marks_.empty()) return std::nullopt;
    Mark from = at(start_us - kPaceReachUs);
    Mark to = at(end_us + kPaceReachUs);
    if (to.harvesting_s - from.harvesting_s < kPaceLeastS) {
        from = marks_.front();
        to = marks_.back();
    }
    const double harvesting_s = to.harvesting_s - from.harvesting_s;
    if (harvesting_s <= 0.0) return std::nullopt;
    return std::max(0.0, to.harvested_kg - from.harvested_kg) / harvesting_s;
}

}  // namespace podrate::sim
