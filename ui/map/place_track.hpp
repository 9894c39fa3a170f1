// A machine's way over the day on the map's plane, and the questions that a map asks of it.
#pragma once

#include <optional>
#include <vector>

#include "geo/place.hpp"
#include "map/plane_box.hpp"
#include "podrate/sample.hpp"

namespace podrate::ui {

// When the machine passed, and how far from the place asked for.
struct Passing {
    TimeUs time_us = 0;
    double away_m = 0.0;
};

class PlaceTrack {
  public:
    // Between places farther apart in time the machine's way is not known.
    static constexpr TimeUs kLongestStepUs = 5 * kSecondUs;

    // In order of time.
    void add(TimeUs time_us, sim::EastNorth place);

    [[nodiscard]] std::size_t size() const { return times_us_.size(); }
    [[nodiscard]] TimeUs time_us(std::size_t point) const { return times_us_[point]; }
    [[nodiscard]] sim::EastNorth place(std::size_t point) const;
    // Whether the way from the point before is known.
    [[nodiscard]] bool joined(std::size_t point) const;
    // The first point not before that time; size() where there is none.
    [[nodiscard]] std::size_t from(TimeUs time_us) const;

    // Between two points on the straight line; nothing where the way is not known.
    [[nodiscard]] std::optional<sim::EastNorth> place_at(TimeUs time_us) const;
    // The earliest of the nearest passings; nothing of an empty track.
    [[nodiscard]] std::optional<Passing> nearest(sim::EastNorth place) const;

  private:
    static constexpr std::size_t kBlock = 64;  // points that share a box
    struct Small {
        float east_m;
        float north_m;
    };
    void look_through(std::size_t block, sim::EastNorth place, Passing& best) const;

    std::vector<TimeUs> times_us_;
    std::vector<Small> places_;
    std::vector<PlaneBox> boxes_;  // of each block, with the way on to the next
};

}  // namespace podrate::ui
