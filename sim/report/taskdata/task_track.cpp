#include "report/taskdata/task_track.hpp"

#include <cmath>

#include "replay/tallies.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kPlaceHoldsUs = 2 * kSecondUs;

}  // namespace

bool TaskTrack::begins_second(const LogRow& row) const {
    return !any_ || row.time_us / kSecondUs != last_us_ / kSecondUs;
}

void TaskTrack::on_row(const LogRow& row, const Estimate& e) {
    if (any_ && open_.state != WorkState::harvesting && open_.state != WorkState::travelling) {
        const double dt_s = static_cast<double>(row.time_us - last_us_) / 1e6;
        if (dt_s <= kLongestGapS) idle_m_ += dt_s * static_cast<double>(e.speed_mps);
    }
    const bool new_second = begins_second(row);
    any_ = true;
    last_us_ = row.time_us;
    open_.state = e.state;
    if (row.holds(Column::lat_deg) && row.holds(Column::lon_deg) &&
        (row[Column::lat_deg] != 0.0 || row[Column::lon_deg] != 0.0)) {
        open_.lat_e7 = static_cast<std::int32_t>(std::lround(row[Column::lat_deg] * 1e7));
        open_.lon_e7 = static_cast<std::int32_t>(std::lround(row[Column::lon_deg] * 1e7));
        placed_us_ = row.time_us;
        any_place_ = true;
    }
    if (!new_second) return;
    open_.time_us = row.time_us;
    open_.placed = any_place_ && row.time_us - placed_us_ <= kPlaceHoldsUs;
    open_.flow_kgps = static_cast<float>(e.flow_kgps);
    open_.yield_kgpm2 = static_cast<float>(e.yield_kgpm2);
    open_.loss_share = static_cast<float>(e.loss_share);
    open_.idle_m = static_cast<float>(idle_m_);
    idle_m_ = 0.0;
    seconds_.push_back(open_);
}

}  // namespace podrate::sim
