#include "podrate/work/load_keeper.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::loads;

LoadKeeper::LoadKeeper(const Parameters& p)
    : tip_least_kg_(p.tip_least_kg),
      gain_sd_share_(p.weight_gain_sd_share),
      capacity_kg_(p.hopper_capacity_kg) {}

void LoadKeeper::start(TimeUs time_us, Real mass_kg, Real mass_variance_kg2) {
    load_start_us_ = time_us;
    first_cut_us_ = time_us;
    cut_yet_ = mass_kg > kLeftOverShare * capacity_kg_;
    load_start_kg_ = mass_kg;
    run_start_kg_ = mass_kg;
    spent_variance_kg2_ = mass_variance_kg2;
    weigh_afresh(time_us, mass_kg, mass_variance_kg2, {});
}

void LoadKeeper::remember(TimeUs time_us, Real mass_kg, Real mass_variance_kg2, const RunningTotals& totals) {
    if (time_us - snapshots_[newest_].time_us < kSnapshotUs) return;
    newest_ = (newest_ + 1) % kSnapshots;
    snapshots_[newest_] = {time_us, mass_kg, mass_variance_kg2, totals};
}

void LoadKeeper::cut(TimeUs time_us) {
    if (cut_yet_) return;
    cut_yet_ = true;
    first_cut_us_ = time_us;
}

void LoadKeeper::tip_began(TimeUs suspected_us) {
    tip_began_us_ = suspected_us;
    int best = (newest_ + 1) % kSnapshots;  // the oldest kept
    for (int back = 0; back < kSnapshots; ++back) {
        const int i = (newest_ - back + kSnapshots) % kSnapshots;
        if (snapshots_[i].time_us > suspected_us - kBeforeUs) continue;
        best = i;
        break;
    }
    before_tip_ = snapshots_[best];
    in_tip_ = true;
}

bool LoadKeeper::close(const Snapshot& before, TimeUs end_us, TimeUs time_us, Real mass_kg, Real variance_kg2,
                       const RunningTotals& totals, Real late_sd_share) {
    const Real late_kg = totals.inflow_kg.since(before.totals.inflow_kg);
    const Real net_kg = before.mass_kg - mass_kg + late_kg;
    tipped_kg_.add(net_kg);
    in_tip_ = false;
    const Real area_m2 = totals.area_m2.since(at_load_start_.area_m2);
    const bool same_tip = loads_ > 0 && area_m2 < kSameTipM2 && end_us - load_start_us_ < kSameTipUs;
    if (net_kg < tip_least_kg_ && !same_tip) return false;
    const Real variance =
        before.variance_kg2 + variance_kg2 + late_sd_share * late_sd_share * late_kg * late_kg;
    spent_variance_kg2_ += variance;
    if (same_tip) {
        add_to_last(net_kg, variance, time_us, mass_kg);
        return true;
    }
    const Real gain_sd_kg = gain_sd_share_ * net_kg;
    last_ = Load();
    last_.number = ++loads_;
    last_.start_us = load_start_us_;
    last_.end_us = end_us;
    last_.closed_us = time_us;
    last_.first_cut_us = first_cut_us_;
    last_.net_kg = net_kg;
    last_.net_sd_kg = math::sqrt(variance + gain_sd_kg * gain_sd_kg);
    last_.area_m2 = area_m2;
    last_.lost_kg = totals.lost_kg.since(at_load_start_.lost_kg);
    at_load_start_ = totals;
    begin_load(time_us, mass_kg);
    return true;
}

void LoadKeeper::begin_load(TimeUs time_us, Real mass_kg) {
    load_start_us_ = time_us;
    load_start_kg_ = mass_kg;
    if (mass_kg < kLeftOverShare * capacity_kg_) cut_yet_ = false;
}

// The hopper was tipped in parts, with no crop cut between: one load.
void LoadKeeper::add_to_last(Real net_kg, Real variance_kg2, TimeUs time_us, Real mass_kg) {
    const Real earlier_gain_sd_kg = gain_sd_share_ * last_.net_kg;
    const Real earlier_variance = last_.net_sd_kg * last_.net_sd_kg - earlier_gain_sd_kg * earlier_gain_sd_kg;
    last_.net_kg += net_kg;
    last_.closed_us = time_us;
    const Real gain_sd_kg = gain_sd_share_ * last_.net_kg;
    last_.net_sd_kg = math::sqrt(earlier_variance + variance_kg2 + gain_sd_kg * gain_sd_kg);
    ++last_.revision;
    begin_load(time_us, mass_kg);
}

bool LoadKeeper::tip_settled(TimeUs time_us, Real mass_kg, Real mass_variance_kg2,
                             const RunningTotals& totals) {
    const bool closed =
        close(before_tip_, tip_began_us_, time_us, mass_kg, mass_variance_kg2, totals, kLateSdShare);
    weigh_afresh(time_us, mass_kg, mass_variance_kg2, totals);
    return closed;
}

bool LoadKeeper::tip_unseen(TimeUs time_us, Real mass_kg, Real mass_variance_kg2, Real doubt_kg,
                            const RunningTotals& totals) {
    Snapshot before = snapshots_[newest_];
    before.variance_kg2 += doubt_kg * doubt_kg;
    const bool closed =
        close(before, before.time_us, time_us, mass_kg, mass_variance_kg2, totals, kUnseenSdShare);
    weigh_afresh(time_us, mass_kg, mass_variance_kg2, totals);
    return closed;
}

void LoadKeeper::weigh_afresh(TimeUs time_us, Real mass_kg, Real mass_variance_kg2,
                              const RunningTotals& totals) {
    for (Snapshot& snapshot : snapshots_) snapshot = {time_us, mass_kg, mass_variance_kg2, totals};
}

void LoadKeeper::mass_shifted(Real by_kg) {
    shifts_kg_ += by_kg;
    load_start_kg_ += by_kg;
    for (Snapshot& snapshot : snapshots_) snapshot.mass_kg += by_kg;
}

void LoadKeeper::place_last(std::int32_t lat_e7, std::int32_t lon_e7) {
    last_.place_known = true;
    last_.lat_e7 = lat_e7;
    last_.lon_e7 = lon_e7;
}

void LoadKeeper::mass_jumped(Real by_kg) {
    mass_shifted(by_kg);
    spent_variance_kg2_ += Real(0.25) * by_kg * by_kg;
}

Real LoadKeeper::harvested_kg(Real mass_kg, const RunningTotals& totals) const {
    const Real content_kg =
        in_tip_ ? before_tip_.mass_kg + totals.inflow_kg.since(before_tip_.totals.inflow_kg) : mass_kg;
    return tipped_kg_.value() + ((content_kg - run_start_kg_) - shifts_kg_);
}

Real LoadKeeper::harvested_sd_kg(Real harvested_kg, Real mass_variance_kg2) const {
    const Real gain_sd_kg = gain_sd_share_ * harvested_kg;
    return math::sqrt(spent_variance_kg2_ + mass_variance_kg2 + gain_sd_kg * gain_sd_kg);
}

}  // namespace podrate
