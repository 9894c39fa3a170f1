// Weighs loads: what the hopper held before a tip less what it held after, drum's last peas added.
#pragma once

#include "podrate/load.hpp"
#include "podrate/math/compensated_sum.hpp"
#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"

namespace podrate {

// Running totals that the estimator keeps and a load is cut out of.
struct RunningTotals {
    math::CompensatedSum<Real> inflow_kg;  // integral of the flow after the drum
    math::CompensatedSum<Real> area_m2;
    math::CompensatedSum<Real> lost_kg;
};

class LoadKeeper {
  public:
    explicit LoadKeeper(const Parameters& parameters);

    // First weight of a run: the hopper may hold peas already.
    void start(TimeUs time_us, Real mass_kg, Real mass_variance_kg2);

    // Remembers the hopper's weight, so that a tip can be weighed from just before it began.
    void remember(TimeUs time_us, Real mass_kg, Real mass_variance_kg2, const RunningTotals& totals);

    void cut(TimeUs time_us);  // crop is being taken in

    // A tip began; `suspected_us` is when the weight first fell.
    void tip_began(TimeUs suspected_us);

    // The hopper has been weighed after the tip. Closes a load and returns true, or returns false where the
    // fall was too small for a load (it then counts as taken out by hand).
    bool tip_settled(TimeUs time_us, Real mass_kg, Real mass_variance_kg2, const RunningTotals& totals);

    // A tip that nobody saw (no data): the load is what was last weighed less what is left, with a wide
    // error.
    bool tip_unseen(TimeUs time_us, Real mass_kg, Real mass_variance_kg2, Real doubt_kg,
                    const RunningTotals& totals);

    // After an outage: earlier weights say nothing of the next tip.
    void weigh_afresh(TimeUs time_us, Real mass_kg, Real mass_variance_kg2, const RunningTotals& totals);

    // The zero changed the reading without peas moving.
    void mass_shifted(Real by_kg);
    // A jump nobody can explain: shifted, and doubted by its own size.
    void mass_jumped(Real by_kg);

    // Where the newest load was tipped.
    void place_last(std::int32_t lat_e7, std::int32_t lon_e7);

    [[nodiscard]] const Load& last() const { return last_; }
    // Peas pour out, or have poured out and the rest has not been weighed.
    [[nodiscard]] bool in_tip() const { return in_tip_; }

    // Over a power cut. `now` is the state's part that goes with it.
    void save(RetainedLoads& to) const;
    void resume(const RetainedLoads& from, const RetainedNow& now);
    // When the oldest peas in the hopper were cut; 0 where it is empty.
    [[nodiscard]] TimeUs oldest_cut_us() const { return cut_yet_ ? first_cut_us_ : 0; }

    // Peas that have reached the hopper since the run began, kg, and its standard deviation. While peas pour
    // out the weight before the tip counts, with the drum's last peas added.
    [[nodiscard]] Real harvested_kg(Real mass_kg, const RunningTotals& totals) const;
    [[nodiscard]] Real harvested_sd_kg(Real harvested_kg, Real mass_variance_kg2) const;
    // Same for the load in the hopper.
    [[nodiscard]] Real gathered_kg(Real mass_kg) const { return mass_kg - load_start_kg_; }

  private:
    struct Snapshot {
        TimeUs time_us = 0;
        Real mass_kg = Real(0);
        Real variance_kg2 = Real(0);
        RunningTotals totals;
    };
    static constexpr int kSnapshots = 8;

    bool close(const Snapshot& before, TimeUs end_us, TimeUs time_us, Real mass_kg, Real variance_kg2,
               const RunningTotals& totals, Real late_sd_share);
    void begin_load(TimeUs time_us, Real mass_kg);
    void add_to_last(Real net_kg, Real variance_kg2, TimeUs time_us, Real mass_kg);

    Snapshot snapshots_[kSnapshots];
    int newest_ = 0;
    Snapshot before_tip_;
    TimeUs tip_began_us_ = 0;
    bool in_tip_ = false;
    RunningTotals at_load_start_;
    Load last_;
    TimeUs load_start_us_ = 0;
    TimeUs first_cut_us_ = 0;
    bool cut_yet_ = false;
    std::uint32_t loads_ = 0;
    Real load_start_kg_ = Real(0);
    Real run_start_kg_ = Real(0);
    Real shifts_kg_ = Real(0);
    math::CompensatedSum<Real> tipped_kg_;
    Real spent_variance_kg2_ = Real(0);  // of the weighings that loads so far rest on
    Real tip_least_kg_;
    Real gain_sd_share_;
    Real capacity_kg_;
};

}  // namespace podrate
