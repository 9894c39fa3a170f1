#include "fields/work_track.hpp"

#include <cmath>
#include <utility>

#include "replay/tallies.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kPlacedEveryUs = 900'000;  // receivers tell 1 to 20 places a second
constexpr TimeUs kLongestWaitUs = 2 * kSecondUs;

bool has_place(const LogRow& row) {
    return row.holds(Column::lat_deg) && row.holds(Column::lon_deg) &&
           (row[Column::lat_deg] != 0.0 || row[Column::lon_deg] != 0.0);
}

}  // namespace

bool WorkTrack::ends_point(const LogRow& row) const {
    return points_.empty() ||
           row.time_us - open_.time_us >= (has_place(row) ? kPlacedEveryUs : kLongestWaitUs);
}

void WorkTrack::on_row(const LogRow& row, const Estimate& e) {
    const auto area_m2 = static_cast<double>(e.area_m2);
    const auto harvested_kg = static_cast<double>(e.harvested_kg);
    if (any_) {
        const double dt_s = static_cast<double>(row.time_us - last_us_) / 1e6;
        if (dt_s <= kLongestGapS) {
            if (last_state_ == WorkState::harvesting) open_.harvesting_s += static_cast<float>(dt_s);
            if (last_state_ != WorkState::travelling) open_.in_field_s += static_cast<float>(dt_s);
        }
    } else {
        open_.time_us = row.time_us;
    }
    any_ = true;
    last_us_ = row.time_us;
    last_state_ = e.state;
    if (!ends_point(row)) return;
    const bool placed = has_place(row);
    open_.time_us = row.time_us;
    open_.placed = placed;
    if (placed) {
        open_.lat_e7 = static_cast<std::int32_t>(std::lround(row[Column::lat_deg] * 1e7));
        open_.lon_e7 = static_cast<std::int32_t>(std::lround(row[Column::lon_deg] * 1e7));
    }
    open_.area_m2 = static_cast<float>(area_m2 - area_m2_);
    open_.gained_kg = static_cast<float>(harvested_kg - harvested_kg_);
    open_.yield_kgpm2 = static_cast<float>(e.yield_kgpm2);
    area_m2_ = area_m2;
    harvested_kg_ = harvested_kg;
    points_.push_back(open_);
    open_.harvesting_s = 0.0F;
    open_.in_field_s = 0.0F;
}

std::vector<WorkPoint> WorkTrack::take_points() {
    return std::exchange(points_, {});
}

}  // namespace podrate::sim
