#include "replay/tallies.hpp"

#include <algorithm>

namespace podrate::sim {

void StateClock::on_row(const LogRow& row, const Estimate& estimate) {
    if (any_) {
        const double dt_s = static_cast<double>(row.time_us - last_us_) / 1e6;
        if (dt_s > kLongestGapS) {
            blank_s_ += dt_s;
        } else {
            seconds_[static_cast<std::size_t>(last_)] += dt_s;
        }
    }
    any_ = true;
    last_us_ = row.time_us;
    last_ = estimate.state;
}

void MinuteTrack::finish() {
    if (any_) close_minute();
}

void MinuteTrack::close_minute() {
    const auto most = std::max_element(rows_in_state_.begin(), rows_in_state_.end());
    open_.state = static_cast<WorkState>(most - rows_in_state_.begin());
    minutes_.push_back(open_);
    rows_in_state_.fill(0);
}

void MinuteTrack::on_row(const LogRow& row, const Estimate& estimate) {
    const std::int64_t minute = row.time_us / (60 * kSecondUs);
    if (any_ && minute != open_.minute) close_minute();
    any_ = true;
    open_.minute = minute;
    open_.harvested_kg = static_cast<double>(estimate.harvested_kg);
    open_.mass_kg = static_cast<double>(estimate.mass_kg);
    open_.area_m2 = static_cast<double>(estimate.area_m2);
    ++rows_in_state_[static_cast<std::size_t>(estimate.state)];
}

}  // namespace podrate::sim
