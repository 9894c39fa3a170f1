// The fields of RetainedState in the order in which they are written, each with the bounds of what is
// believed when read: far beyond any machine, so that whatever passes keeps all arithmetic finite.
#pragma once

#include "podrate/retained/retained_state.hpp"

namespace podrate::retained {

inline constexpr Bounds kTotal{Real(-1e9), Real(1e9)};
inline constexpr Bounds kContentKg{Real(-1e7), Real(1e7)};
inline constexpr Bounds kVariance{Real(0), Real(1e12)};
inline constexpr Bounds kLn{Real(-100), Real(100)};
inline constexpr Bounds kLnVariance{Real(0), Real(1e4)};
inline constexpr Bounds kDistanceM{Real(0), Real(1e6)};
inline constexpr Bounds kPositiveKg2{Real(1e-4), Real(1e12)};
inline constexpr Bounds kNotNegative{Real(0), Real(1e9)};
inline constexpr Bounds kSquareKg2{Real(-1e12), Real(1e12)};

template <class Visitor, class Now>
constexpr void visit_now(Visitor& v, Now& s) {
    v.moment(s.time_us);
    v.sum(s.inflow_kg, kTotal);
    v.sum(s.area_m2, kTotal);
    v.sum(s.lost_kg, kTotal);
    v.real(s.mass_kg, kContentKg);
    v.real(s.mass_variance_kg2, kVariance);
    v.real(s.flow_kgps, kContentKg);
    v.real(s.booked_kg, kNotNegative);
}

template <class Visitor, class LoadLike>
constexpr void visit_load(Visitor& v, LoadLike& s) {
    v.count(s.number);
    v.count(s.revision);
    v.moment(s.start_us);
    v.moment(s.end_us);
    v.moment(s.closed_us);
    v.moment(s.first_cut_us);
    v.angle(s.lat_e7, 900000000);
    v.angle(s.lon_e7, 1800000000);
    v.flag(s.place_known);
    v.real(s.net_kg, kTotal);
    v.real(s.net_sd_kg, kTotal);
    v.real(s.area_m2, kTotal);
    v.real(s.lost_kg, kTotal);
}

template <class Visitor, class Loads>
constexpr void visit_loads(Visitor& v, Loads& s) {
    visit_load(v, s.last);
    v.count(s.pauses);
    v.moment(s.load_start_us);
    v.moment(s.first_cut_us);
    v.moment(s.tip_began_us);
    v.moment(s.zero_us);
    v.flag(s.cut_yet);
    v.flag(s.in_tip);
    v.flag(s.zero_timed);
    v.flag(s.stuck);
    v.real(s.stuck_kg, kContentKg);
    v.real(s.ceiling_kg, kContentKg);
    v.real(s.load_start_kg, kContentKg);
    v.real(s.run_start_kg, kContentKg);
    v.real(s.shifts_kg, kTotal);
    v.real(s.spent_variance_kg2, kVariance);
    v.sum(s.tipped_kg, kTotal);
    v.sum(s.area_at_start_m2, kTotal);
    v.sum(s.lost_at_start_kg, kTotal);
    v.real(s.before_tip_kg, kContentKg);
    v.real(s.before_tip_variance_kg2, kVariance);
    v.sum(s.inflow_before_tip_kg, kTotal);
    v.real(s.zero_kg, kContentKg);
    v.real(s.zero_variance_kg2, kVariance);
    v.byte(s.dead_cells, 15);
    v.half(s.trays);
}

template <class Visitor, class Memory>
constexpr void visit_loss(Visitor& v, Memory& s) {
    v.moment(s.time_us);
    v.real(s.level, kLn);
    v.real(s.level_variance, kLnVariance);
    v.real(s.ln_picking, kLn);
    v.real(s.ln_picking_variance, kLnVariance);
    v.real(s.level_with_picking, {Real(-100), Real(100)});
}

template <class Visitor, class Learnt>
constexpr void visit_scale(Visitor& v, Learnt& s) {
    v.real(s.moving_spread_kg2, kPositiveKg2);
    v.real(s.moving_white_kg2, kPositiveKg2);
    v.real(s.still_spread_kg2, kPositiveKg2);
    v.real(s.still_white_kg2, kPositiveKg2);
    for (auto& cell : s.cells) {
        v.real(cell.last_kg, kContentKg);
        v.real(cell.others_then_kg, kContentKg);
        v.real(cell.step_kg, kContentKg);
        v.real(cell.mean_kg, kContentKg);
        v.real(cell.others_mean_kg, kContentKg);
        v.real(cell.spread_kg2, kVariance);
        v.real(cell.together_kg2, kSquareKg2);
    }
    v.byte(s.cell_count, RetainedLearnt::kCells);
    v.real(s.tilt_share, {Real(0.2), Real(1)});
}

template <class Visitor, class Learnt>
constexpr void visit_learnt(Visitor& v, Learnt& s) {
    v.count(s.parameter_version);
    v.real(s.dead_time_s, {Real(0), Real(100)});
    v.real(s.dead_time_variance_s2, kLnVariance);
    v.real(s.lag_s, {Real(0.01), Real(1000)});
    v.real(s.ln_lag_variance, kLnVariance);
    v.real(s.ln_crop, kLn);
    v.real(s.ln_mean, kLn);
    v.real(s.ln_mean_variance, kLnVariance);
    v.real(s.crop_cv, {Real(1e-4), Real(100)});
    v.count(s.cv_words);
    visit_loss(v, s.loss);
    v.real(s.misfit, kLn);
    v.real(s.misfit_variance, kLnVariance);
    v.real(s.reaction, kLn);
    v.real(s.reaction_variance, kLnVariance);
    v.real(s.ln_usual_rate, kLn);
    v.real(s.usual_over_m, kDistanceM);
    v.real(s.usual_unit_hazard, {Real(0), Real(10)});
    v.real(s.referred_over_m, kDistanceM);
    visit_scale(v, s);
    v.real(s.usual_speed_mps, {Real(0), Real(60)});
    v.real(s.slip_factor, {Real(0.5), Real(2)});
    v.real(s.slip_variance, {Real(-1), Real(1)});
    v.flag(s.place_known);
    v.angle(s.lat_e7, 900000000);
    v.angle(s.lon_e7, 1800000000);
    v.real(s.worked_m, kDistanceM);
    v.real(s.ln_rate_mean, kLn);
    v.real(s.ln_rate_variance, kLnVariance);
    v.real(s.ln_hits_gain, kLn);
    v.count(s.hits_blocks);
    for (auto& kg : s.passed_kg) v.real(kg, kNotNegative);
    for (auto& kg : s.excess_kg) v.real(kg, kNotNegative);
}

template <class Visitor, class Clock>
constexpr void visit_clock(Visitor& v, Clock& s) {
    v.byte(s.count, ClockMemory::kMost);
    for (auto& piece : s.pieces) {
        v.moment(piece.from_us);
        v.moment(piece.utc_us);
    }
}

}  // namespace podrate::retained
