#include "hours/hopper_parcels.hpp"

#include <algorithm>

#include "podrate/choices.hpp"
#include "replay/tallies.hpp"

namespace podrate::sim {

HopperParcels::HopperParcels(const Parameters& parameters)
    : next_to_nothing_kg_(
          static_cast<double>(choices::loads::kLeftOverShare * parameters.hopper_capacity_kg)) {}

void HopperParcels::put_in(TimeUs time_us, double kg) {
    const TimeUs middle_us = time_us / kParcelUs * kParcelUs + kParcelUs / 2;
    if (hopper_.empty() || hopper_.back().in_us != middle_us) hopper_.push_back({middle_us, 0.0});
    hopper_.back().kg += kg;
}

void HopperParcels::tip_out(double left_kg) {
    double all_kg = 0.0;
    for (const Parcel& parcel : hopper_) all_kg += parcel.kg;
    const double stays =
        left_kg > next_to_nothing_kg_ && all_kg > 0.0 ? std::min(1.0, left_kg / all_kg) : 0.0;
    if (loads_.empty() || loads_.back().number != closing_) loads_.push_back({closing_, {}});
    std::vector<Parcel>& load = loads_.back().parcels;
    for (const Parcel& parcel : hopper_) load.push_back({parcel.in_us, parcel.kg * (1.0 - stays)});
    if (stays == 0.0) hopper_.clear();
    for (Parcel& parcel : hopper_) parcel.kg *= stays;
}

void HopperParcels::on_load(const Load& load) {
    closing_ = load.number;
}

void HopperParcels::on_row(const LogRow& row, const Estimate& estimate) {
    const auto mass_kg = static_cast<double>(estimate.mass_kg);
    if (!any_ && mass_kg > next_to_nothing_kg_) hopper_.push_back({row.time_us, mass_kg});
    const double dt_s = static_cast<double>(row.time_us - last_us_) / 1e6;
    if (any_ && last_kgps_ > 0.0 && dt_s <= kLongestGapS) put_in(row.time_us, last_kgps_ * dt_s);
    if (closing_ != 0) tip_out(mass_kg);
    closing_ = 0;
    any_ = true;
    last_us_ = row.time_us;
    last_kgps_ = static_cast<double>(estimate.flow_kgps);
}

}  // namespace podrate::sim
