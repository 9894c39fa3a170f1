// A machine's way over a plane, second by second, for tests of what fields gave.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "fields/work_track.hpp"
#include "geo/local_frame.hpp"
#include "synth/random.hpp"

namespace podrate::test {

class FieldWalk {
  public:
    FieldWalk(sim::LatLon origin, double width_m) : frame_(origin), width_m_(width_m), random_(11, "walk") {}

    // Metres that the receiver wanders to each side, over half a minute.
    double wander_m = 0.0;
    double speed_mps = 0.9;
    double yield_kgpm2 = 0.5;

    // Goes straight from one place to another, a point a second, reel on or off.
    void go(sim::EastNorth from, sim::EastNorth to, bool cutting) {
        const double far_m = std::hypot(to.east_m - from.east_m, to.north_m - from.north_m);
        point(from, 0.0);
        for (double gone_m = 0.0; gone_m < far_m;) {
            const double step_m = std::min(speed_mps, far_m - gone_m);
            gone_m += step_m;
            const double along = gone_m / far_m;
            point({from.east_m + along * (to.east_m - from.east_m),
                   from.north_m + along * (to.north_m - from.north_m)},
                  cutting ? step_m : 0.0);
        }
        point(to, 0.0);
    }
    void point(sim::EastNorth at, double cut_m) {
        constexpr double kWanderS = 30.0;
        if (wander_m > 0.0) {
            off_.east_m = random_.wander(off_.east_m, wander_m, kWanderS, 1.0);
            off_.north_m = random_.wander(off_.north_m, wander_m, kWanderS, 1.0);
        }
        const sim::LatLon place = frame_.to_lat_lon({at.east_m + off_.east_m, at.north_m + off_.north_m});
        sim::WorkPoint p;
        p.time_us = time_us_;
        p.lat_e7 = static_cast<std::int32_t>(std::lround(place.lat_deg * 1e7));
        p.lon_e7 = static_cast<std::int32_t>(std::lround(place.lon_deg * 1e7));
        p.placed = true;
        p.area_m2 = static_cast<float>(cut_m * width_m_);
        p.yield_kgpm2 = static_cast<float>(yield_kgpm2);
        p.harvesting_s = cut_m > 0.0 ? 1.0F : 0.0F;
        p.in_field_s = 1.0F;
        points.push_back(p);
        time_us_ += kSecondUs;
    }

    std::vector<sim::WorkPoint> points;

  private:
    sim::LocalFrame frame_;
    double width_m_;
    sim::Random random_;
    sim::EastNorth off_;
    TimeUs time_us_ = 1751032800 * kSecondUs;
};

}  // namespace podrate::test
