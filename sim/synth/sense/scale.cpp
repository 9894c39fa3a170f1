#include "synth/sense/scale.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

// Common practice, no source.
constexpr double kTwoPi = 6.283185307179586477;
constexpr double kDroop = 0.04;        // of the drum's speed at the rated feed
constexpr double kDrumWander = 0.006;  // sd, as share
constexpr double kDrumWanderS = 10.0;
constexpr double kSecondTone = 0.35;    // the tone at twice the frequency against the first
constexpr double kEmptyDrumTone = 0.5;  // the tone of an empty drum against one at the rated feed
constexpr double kSwayDamping = 0.12;
constexpr double kShiftPerDeg = 0.012;  // share of the load that moves to the lower cells with each degree
constexpr double kWarmestHour = 15.0;

double quantised(double value, double quantum) {
    return quantum > 0.0 ? std::round(value / quantum) * quantum : value;
}

// What a cell of so many bears of the whole: fore and aft, left and right.
double bears(int cell, int cells, double pitch_deg, double roll_deg) {
    const double even = 1.0 / cells;
    const double fore = cells == 1 || cells == 3 ? 0.0 : (cell < cells / 2 ? -1.0 : 1.0);
    const double side = cells == 4 ? (cell % 2 == 0 ? -1.0 : 1.0) : 0.0;
    return even * (1.0 + kShiftPerDeg * (fore * pitch_deg + side * roll_deg));
}

}  // namespace

double drum_speed_share(const VinerTruth& truth, double wander) {
    return 1.0 - kDroop * truth.drum_load + wander;
}

Scale::Scale(const Scenario& scenario, const ScenarioMachine& machine)
    : told_(machine.scale),
      faults_(scenario.faults, machine.id),
      noise_(scenario.seed, "weight " + machine.id),
      shaking_(scenario.seed, "shaking " + machine.id),
      cells_(static_cast<int>(machine.scale.cells)),
      start_hour_(static_cast<double>(scenario.start_unix_s % 86400) / 3600.0 +
                  scenario.origin.lon_deg / 15.0),
      zero_kg_(machine.scale.zero_kg) {
    Random make(scenario.seed, "cells " + machine.id);
    for (std::size_t i = 0; i < gain_.size(); ++i) {
        gain_[i] = 1.0 + told_.gain_sd * make.normal();
        cell_zero_kg_[i] = told_.cell_zero_sd_kg * make.normal();
    }
    if (told_.shocks_per_km > 0.0) to_next_shock_m_ = shaking_.exponential(1000.0 / told_.shocks_per_km);
}

double Scale::sum_kg() const {
    double sum = 0.0;
    for (int cell = 0; cell < cells_; ++cell) sum += cell_kg(cell);
    return sum;
}

double Scale::warmth_k(double time_s) const {
    const auto swing = [&](double at_s) {
        return told_.temperature_swing_k *
               math::sin_cos(kTwoPi * (start_hour_ + at_s / 3600.0 - kWarmestHour) / 24.0).cos;
    };
    return swing(time_s) - swing(0.0);
}

// The drum's tone and its octave follow the drum's speed, so that they alias now here, now there; the chassis
// sways on its tyres, pushed by the ground and by shocks.
double Scale::vibration_kg(const VinerTruth& truth, double dt_s) {
    const bool moving = truth.speed_mps > 0.0;
    drum_wander_ = shaking_.wander(drum_wander_, kDrumWander, kDrumWanderS, dt_s);
    tone_phase_rad_ += kTwoPi * told_.tone_hz * drum_speed_share(truth, drum_wander_) * dt_s;
    tone_phase_rad_ -= kTwoPi * std::floor(tone_phase_rad_ / kTwoPi);
    double kg = 0.0;
    if (moving || truth.reel_on) {
        const double amplitude_kg =
            told_.tone_kg * (kEmptyDrumTone + (1.0 - kEmptyDrumTone) * std::min(truth.drum_load, 2.0));
        kg += amplitude_kg *
              (math::sin_cos(tone_phase_rad_).sin + kSecondTone * math::sin_cos(2.0 * tone_phase_rad_).sin);
    }
    if (told_.bounce_kg <= 0.0 && told_.shocks_per_km <= 0.0) return kg;
    const double turn_radps = kTwoPi * told_.bounce_hz;
    const double fades = math::exp(-kSwayDamping * turn_radps * dt_s);
    const auto turn = math::sin_cos(turn_radps * dt_s);
    const double push_kg = told_.bounce_kg * truth.speed_mps * std::sqrt(1.0 - fades * fades);
    const double real = shaking_.normal();
    const double imaginary = shaking_.normal();
    sway_kg_ = sway_kg_ * fades * std::complex<double>(turn.cos, turn.sin) +
               push_kg * std::complex<double>(real, imaginary);
    if (told_.shocks_per_km > 0.0) {
        to_next_shock_m_ -= truth.speed_mps * dt_s;
        if (to_next_shock_m_ <= 0.0) {
            sway_kg_ += told_.shock_kg * (0.5 + shaking_.uniform());
            to_next_shock_m_ += shaking_.exponential(1000.0 / told_.shocks_per_km);
        }
    }
    return kg + sway_kg_.real();
}

double Scale::warped_kg(int cell, double time_s, double kg) {
    const int number = cell + 1;
    if (const ScenarioFault* drift = faults_.active(FaultKind::weight_drift, number, time_s))
        kg += (drift->cell == 0 ? drift->size / cells_ : drift->size) * (time_s - drift->at_s) / 3600.0;
    if (const ScenarioFault* clip = faults_.active(FaultKind::weight_clipped, number, time_s))
        kg = std::min(kg, clip->cell == 0 ? clip->size / cells_ : clip->size);
    return kg;
}

double Scale::dead_kg(int cell, double time_s, double kg) {
    const int number = cell + 1;
    if (const ScenarioFault* open = faults_.active(FaultKind::weight_open, number, time_s))
        kg = open->cell == 0 ? open->size / cells_ : open->size;
    if (faults_.active(FaultKind::weight_dropout, number, time_s) != nullptr) kg = 0.0;
    if (faults_.active(FaultKind::weight_stuck, number, time_s) != nullptr) kg = cell_kg(cell);
    return kg;
}

void Scale::read(double time_s, const VinerTruth& truth, double pitch_deg, double roll_deg,
                 double gravity_share, double dt_s) {
    zero_kg_ += told_.zero_drift_kg * std::sqrt(dt_s / 3600.0) * noise_.normal();
    const double upright =
        math::sin_cos(math::deg_to_rad(pitch_deg)).cos * math::sin_cos(math::deg_to_rad(roll_deg)).cos;
    const double load_kg = truth.mass_kg * upright * gravity_share;
    followed_kg_ = std::clamp(followed_kg_, load_kg - told_.hysteresis_kg, load_kg + told_.hysteresis_kg);
    const double shaken_kg = followed_kg_ + vibration_kg(truth, dt_s);
    const double noise_kg = truth.speed_mps > 0.0 ? told_.noise_moving_kg : told_.noise_still_kg;
    const double warmth = told_.zero_kg_per_k * warmth_k(time_s);
    for (int cell = 0; cell < cells_; ++cell) {
        const auto i = static_cast<std::size_t>(cell);
        double kg = gain_[i] * bears(cell, cells_, pitch_deg, roll_deg) * shaken_kg + cell_zero_kg_[i] +
                    (zero_kg_ + warmth) / cells_ + noise_.normal() * noise_kg / std::sqrt(cells_);
        if (told_.clip_kg > 0.0) kg = std::min(kg, told_.clip_kg / cells_);
        kg = quantised(warped_kg(cell, time_s, kg), told_.quantum_kg);
        shown_kg_[i] = dead_kg(cell, time_s, kg);
    }
}

}  // namespace podrate::sim
