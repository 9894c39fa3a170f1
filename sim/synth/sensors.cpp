#include "synth/sensors.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

// Common practice, no source.
constexpr double kTiltNoiseDeg = 0.15;
constexpr double kRoughDeg = 0.5;        // how far uneven ground tips the machine, sd
constexpr double kRoughS = 1.5;          // how long a tip lasts
constexpr double kSpeedNoise = 0.015;    // m/s
constexpr double kSpeedDeadBand = 0.06;  // m/s
constexpr double kSpeedQuantum = 0.01;   // m/s
constexpr double kPlaceNoiseM = 0.25;
constexpr double kPlaceMemoryS = 30.0;
constexpr double kHeadingNoiseDeg = 0.6;
constexpr double kToneWanderHz = 0.3;
constexpr double kCalibrationLatDeg = 52.5;

double square(double x) {
    return x * x;
}

double gravity_at(double lat_deg) {
    const double sin2 = square(math::sin_cos(math::deg_to_rad(lat_deg)).sin);
    return 9.7803253359 * (1.0 + 0.00193185265241 * sin2) / std::sqrt(1.0 - 0.00669437999014 * sin2);
}

double quantised(double value, double quantum) {
    return quantum > 0.0 ? std::round(value / quantum) * quantum : value;
}

}  // namespace

Sensors::Sensors(const Scenario& scenario, const ScenarioMachine& machine)
    : machine_(machine),
      faults_(scenario.faults, machine.id),
      weight_noise_(scenario.seed, "weight " + machine.id),
      tilt_noise_(scenario.seed, "tilt " + machine.id),
      speed_noise_(scenario.seed, "speed " + machine.id),
      place_noise_(scenario.seed, "place " + machine.id),
      gravity_share_(gravity_at(scenario.origin.lat_deg) / gravity_at(kCalibrationLatDeg)),
      zero_kg_(machine.zero_kg) {}

void Sensors::sense_tilt(const VinerTruth& truth, const ScenarioField& field, double dt_s) {
    const double keep = std::max(0.0, 1.0 - dt_s / kRoughS);
    const double push = truth.speed_mps > 0.0 ? kRoughDeg * std::sqrt(1.0 - keep * keep) : 0.0;
    if (truth.speed_mps > 0.0) {
        rough_pitch_deg_ = keep * rough_pitch_deg_ + push * tilt_noise_.normal();
        rough_roll_deg_ = keep * rough_roll_deg_ + push * tilt_noise_.normal();
    }
    const auto slope = math::sin_cos(math::deg_to_rad(truth.pose.heading_deg - field.downhill_deg));
    true_pitch_deg_ = -field.slope_deg * slope.cos + rough_pitch_deg_;
    true_roll_deg_ = -field.slope_deg * slope.sin + rough_roll_deg_;
    pitch_deg_ = true_pitch_deg_ + tilt_noise_.normal(0.0, kTiltNoiseDeg);
    roll_deg_ = true_roll_deg_ + tilt_noise_.normal(0.0, kTiltNoiseDeg);
}

void Sensors::sense_weight(const VinerTruth& truth, double dt_s) {
    zero_kg_ += machine_.zero_drift_kg * std::sqrt(dt_s / 3600.0) * weight_noise_.normal();
    const double upright = math::sin_cos(math::deg_to_rad(true_pitch_deg_)).cos *
                           math::sin_cos(math::deg_to_rad(true_roll_deg_)).cos;
    const bool moving = truth.speed_mps > 0.0;
    const double tone_hz = machine_.tone_hz + kToneWanderHz * weight_noise_.normal();
    tone_phase_ += 6.283185307179586 * tone_hz * dt_s;
    tone_phase_ -= 6.283185307179586 * std::floor(tone_phase_ / 6.283185307179586);
    const double tone = moving || truth.reel_on ? machine_.tone_kg * math::sin_cos(tone_phase_).sin : 0.0;
    const double white =
        weight_noise_.normal() * (moving ? machine_.noise_moving_kg : machine_.noise_still_kg);
    const double reading = truth.mass_kg * upright * gravity_share_ + zero_kg_ + tone + white;
    hopper_kg_ = quantised(reading, machine_.quantum_kg);
}

void Sensors::spoil(double time_s) {
    if (const ScenarioFault* drift = faults_.active(FaultKind::weight_drift, time_s)) {
        hopper_kg_ += drift->size * (time_s - drift->at_s) / 3600.0;
    }
    if (const ScenarioFault* clip = faults_.active(FaultKind::weight_clipped, time_s)) {
        hopper_kg_ = std::min(hopper_kg_, clip->size);
    }
    if (faults_.active(FaultKind::weight_dropout, time_s) != nullptr) hopper_kg_ = 0.0;
    if (faults_.active(FaultKind::weight_stuck, time_s) != nullptr) hopper_kg_ = stuck_kg_;
    stuck_kg_ = hopper_kg_;
    if (faults_.active(FaultKind::speed_zero, time_s) != nullptr) speed_mps_ = 0.0;
    if (faults_.active(FaultKind::speed_stuck, time_s) != nullptr) speed_mps_ = stuck_mps_;
    stuck_mps_ = speed_mps_;
    if (faults_.active(FaultKind::tilt_dead, time_s) != nullptr) {
        pitch_deg_ = 0.0;
        roll_deg_ = 0.0;
    }
}

void Sensors::sense(double time_s, const VinerTruth& truth, const ScenarioField& field, double dt_s) {
    sense_tilt(truth, field, dt_s);
    sense_weight(truth, dt_s);

    const double rolled =
        truth.speed_mps * (1.0 + machine_.slip_share) + speed_noise_.normal(0.0, kSpeedNoise);
    speed_mps_ = truth.speed_mps <= 0.0 || rolled < kSpeedDeadBand ? 0.0 : quantised(rolled, kSpeedQuantum);

    spoil(time_s);
    const double keep = std::max(0.0, 1.0 - dt_s / kPlaceMemoryS);
    const double push = kPlaceNoiseM * std::sqrt(1.0 - keep * keep);
    place_error_.east_m = keep * place_error_.east_m + push * place_noise_.normal();
    place_error_.north_m = keep * place_error_.north_m + push * place_noise_.normal();
    place_ = {truth.pose.place.east_m + place_error_.east_m, truth.pose.place.north_m + place_error_.north_m};
    heading_deg_ = truth.pose.heading_deg + place_noise_.normal(0.0, kHeadingNoiseDeg);
    heading_deg_ -= 360.0 * std::floor(heading_deg_ / 360.0);
}

}  // namespace podrate::sim
