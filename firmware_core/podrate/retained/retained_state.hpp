// What an estimator must not forget when its power is cut.
#pragma once

#include <cstdint>

#include "podrate/load.hpp"
#include "podrate/loss/loss_belief.hpp"
#include "podrate/math/compensated_sum.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"
#include "podrate/time/clock_bridge.hpp"

namespace podrate {

// Raised whenever a field of what follows is added, dropped or changes its meaning.
inline constexpr std::uint8_t kRetainedVersion = 1;

// What changes all the time: written once a second.
struct RetainedNow {
    TimeUs time_us = 0;  // of writing: the estimator's newest sample
    math::CompensatedSum<Real> inflow_kg;
    math::CompensatedSum<Real> area_m2;
    math::CompensatedSum<Real> lost_kg;
    Real mass_kg = Real(0);
    Real mass_variance_kg2 = Real(0);
    Real flow_kgps = Real(0);
    Real booked_kg = Real(0);  // in the loss book
};

// What changes when a tip begins or ends, a load's first crop is cut or a sensor fails. Together with
// RetainedNow this holds every total.
struct RetainedLoads {
    Load last;
    std::uint32_t pauses = 0;
    TimeUs load_start_us = 0;
    TimeUs first_cut_us = 0;
    TimeUs tip_began_us = 0;
    TimeUs zero_us = 0;
    bool cut_yet = false;
    bool in_tip = false;
    bool zero_timed = false;
    bool stuck = false;         // the scale repeats to the last digit
    Real stuck_kg = Real(0);    // as read
    Real ceiling_kg = Real(0);  // where the scale seems to end
    Real load_start_kg = Real(0);
    Real run_start_kg = Real(0);
    Real shifts_kg = Real(0);
    Real spent_variance_kg2 = Real(0);
    math::CompensatedSum<Real> tipped_kg;
    math::CompensatedSum<Real> area_at_start_m2;  // of the load
    math::CompensatedSum<Real> lost_at_start_kg;
    Real before_tip_kg = Real(0);
    Real before_tip_variance_kg2 = Real(0);
    math::CompensatedSum<Real> inflow_before_tip_kg;
    Real zero_kg = Real(0);
    Real zero_variance_kg2 = Real(0);
    std::uint8_t dead_cells = 0;  // a bit for each
    std::uint16_t trays = 0;
};

// A cell against the others (weight/cell_watch).
struct RetainedCell {
    Real last_kg = Real(0);
    Real others_then_kg = Real(0);
    Real step_kg = Real(0);
    Real mean_kg = Real(0);
    Real others_mean_kg = Real(0);
    Real spread_kg2 = Real(0);
    Real together_kg2 = Real(0);
};

// What was learnt, slowly: written once a minute.
struct RetainedLearnt {
    std::uint32_t parameter_version = 0;
    // The drum, absolute: a parameter told better meanwhile is not moved by what was learnt against the old
    // one.
    Real dead_time_s = Real(0);
    Real dead_time_variance_s2 = Real(0);
    Real lag_s = Real(0);
    Real ln_lag_variance = Real(0);
    Real ln_crop = Real(0);
    Real ln_mean = Real(0);
    Real ln_mean_variance = Real(0);
    Real crop_cv = Real(0);
    std::uint32_t cv_words = 0;
    LossMemory loss;
    Real misfit = Real(0);
    Real misfit_variance = Real(0);
    Real reaction = Real(0);
    Real reaction_variance = Real(0);
    Real ln_usual_rate = Real(0);
    Real usual_over_m = Real(0);
    Real usual_unit_hazard = Real(0);
    Real referred_over_m = Real(0);
    Real moving_spread_kg2 = Real(0);  // of the weight's noise
    Real moving_white_kg2 = Real(0);
    Real still_spread_kg2 = Real(0);
    Real still_white_kg2 = Real(0);
    static constexpr int kCells = 4;
    RetainedCell cells[kCells];
    std::uint8_t cell_count = 0;
    Real usual_speed_mps = Real(0);
    Real slip_factor = Real(1);  // work/slip_watch
    Real slip_variance = Real(-1);
    Real tilt_share = Real(1);
    bool place_known = false;
    std::int32_t lat_e7 = 0;
    std::int32_t lon_e7 = 0;
    Real worked_m = Real(0);  // loss/loss_knowledge
    Real ln_rate_mean = Real(0);
    Real ln_rate_variance = Real(0);
    Real ln_hits_gain = Real(0);  // loss/loss_excess
    std::uint32_t hits_blocks = 0;
    static constexpr int kBins = 32;
    Real passed_kg[kBins] = {};  // loss/loss_book
    Real excess_kg[kBins] = {};
};

struct RetainedState {
    RetainedNow now;
    RetainedLoads loads;
    RetainedLearnt learnt;
    ClockMemory clock;  // filled by whoever keeps the ClockBridge
};

// How a run takes up what another left.
enum class Resume : std::uint8_t {
    go_on,    // the same run after a power cut: totals and the load go on
    new_run,  // another day: only what was learnt is taken over
};

enum class ResumeResult : std::uint8_t {
    resumed,
    learnt_dropped,  // the parameters are another version: the totals go on, what was learnt is not believed
    too_late,        // a sample has been taken: nothing was done
    time_back,       // the time given is before the state's: nothing was done
};

}  // namespace podrate
