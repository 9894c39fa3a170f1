#include "map/place_track.hpp"

#include <algorithm>
#include <limits>

namespace podrate::ui {

void PlaceTrack::add(TimeUs time_us, sim::EastNorth place) {
    const std::size_t point = places_.size();
    times_us_.push_back(time_us);
    places_.push_back({static_cast<float>(place.east_m), static_cast<float>(place.north_m)});
    if (point % kBlock == 0) {
        if (point > 0 && joined(point)) boxes_.back().take(this->place(point));
        boxes_.emplace_back();
    }
    boxes_.back().take(this->place(point));
}

sim::EastNorth PlaceTrack::place(std::size_t point) const {
    return {static_cast<double>(places_[point].east_m), static_cast<double>(places_[point].north_m)};
}

bool PlaceTrack::joined(std::size_t point) const {
    return point > 0 && times_us_[point] - times_us_[point - 1] <= kLongestStepUs;
}

std::size_t PlaceTrack::from(TimeUs time_us) const {
    return static_cast<std::size_t>(std::lower_bound(times_us_.begin(), times_us_.end(), time_us) -
                                    times_us_.begin());
}

std::optional<sim::EastNorth> PlaceTrack::place_at(TimeUs time_us) const {
    const std::size_t next = from(time_us);
    if (next == size()) return std::nullopt;
    const sim::EastNorth to = place(next);
    if (times_us_[next] == time_us) return to;
    if (!joined(next)) return std::nullopt;
    const sim::EastNorth begin = place(next - 1);
    const double share = static_cast<double>(time_us - times_us_[next - 1]) /
                         static_cast<double>(times_us_[next] - times_us_[next - 1]);
    return sim::EastNorth{begin.east_m + share * (to.east_m - begin.east_m),
                          begin.north_m + share * (to.north_m - begin.north_m)};
}

void PlaceTrack::look_through(std::size_t block, sim::EastNorth asked, Passing& best) const {
    const std::size_t end = std::min((block + 1) * kBlock + 1, size());
    for (std::size_t point = block * kBlock; point < end; ++point) {
        const sim::EastNorth to = place(point);
        const sim::EastNorth begin = joined(point) ? place(point - 1) : to;
        const double east_m = to.east_m - begin.east_m;
        const double north_m = to.north_m - begin.north_m;
        const double square = east_m * east_m + north_m * north_m;
        const double along =
            (asked.east_m - begin.east_m) * east_m + (asked.north_m - begin.north_m) * north_m;
        // A machine that stands is met when it came.
        const double share = square > 0.0 ? std::clamp(along / square, 0.0, 1.0) : 0.0;
        const double away_m = sim::length_of_m(begin.east_m + share * east_m - asked.east_m,
                                               begin.north_m + share * north_m - asked.north_m);
        if (away_m >= best.away_m) continue;
        best.away_m = away_m;
        const TimeUs lasted_us = joined(point) ? times_us_[point] - times_us_[point - 1] : 0;
        best.time_us =
            times_us_[point] - lasted_us + static_cast<TimeUs>(share * static_cast<double>(lasted_us));
    }
}

std::optional<Passing> PlaceTrack::nearest(sim::EastNorth asked) const {
    if (times_us_.empty()) return std::nullopt;
    Passing best = {0, std::numeric_limits<double>::infinity()};
    for (std::size_t block = 0; block < boxes_.size(); ++block) {
        if (boxes_[block].away_m(asked) < best.away_m) look_through(block, asked, best);
    }
    return best;
}

}  // namespace podrate::ui
