// From cell readings to kilograms in the hopper: sum, tilt, gravity, zero, and whether the reading can be
// believed.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"
#include "podrate/sample.hpp"
#include "podrate/weight/cell_watch.hpp"

namespace podrate {

class WeightConditioner {
  public:
    explicit WeightConditioner(const Parameters& parameters);

    void set_tilt(const Sample& tilt);
    void set_latitude(Real lat_deg);

    // Hopper content by this sample, kg, zero taken off.
    Real condition(const Sample& weight);

    // True while readings repeat to the last digit although the machine shakes and peas come.
    [[nodiscard]] bool stuck() const { return stuck_; }
    // Since when the reading has been the same.
    [[nodiscard]] TimeUs same_since_us() const { return same_since_us_; }
    // True while it has been so for a second or more: a scale may have stuck, which nobody can tell yet.
    [[nodiscard]] bool repeats(TimeUs now_us) const;
    // True while one of several cells is done without.
    [[nodiscard]] bool cell_dead() const { return cells_.any_dead(); }
    // Doubt of the content for that, kg2.
    [[nodiscard]] Real cell_doubt_kg2() const { return cells_.doubt_kg2(); }
    void judge_stuck(const Sample& weight, bool moving, Real flow_kgps);

    // Learns the zero from a hopper just emptied: `mass_kg` is what it still seems to hold. Returns by how
    // much the content changes with the new zero, kg.
    Real take_zero(TimeUs time_us, Real mass_kg, Real mass_variance_kg2);
    [[nodiscard]] Real zero_variance_kg2(TimeUs time_us) const;

    // Over a power cut. The learnt part first: a cell is dead only against the lines of its others.
    void save(RetainedLoads& loads, RetainedLearnt& learnt) const;
    void resume(const RetainedLearnt& from, TimeUs now_us);
    void resume(const RetainedLoads& from);

  private:
    CellWatch cells_;
    Real zero_kg_ = Real(0);
    Real zero_variance_kg2_;
    TimeUs zero_time_us_ = 0;
    bool zero_timed_ = false;
    Real tilt_share_ = Real(1);
    Real gravity_share_ = Real(1);
    Real calibration_sin2_;
    Real drift_variance_per_h_;
    Real residue_kg_;
    Real residue_variance_;
    float last_sum_ = 0.0F;
    TimeUs same_since_us_ = 0;
    int same_count_ = 0;
    Real same_flow_kgps_ = Real(0);  // the flow when the reading began to repeat: it follows a dead cell down
    bool stuck_ = false;
};

}  // namespace podrate
