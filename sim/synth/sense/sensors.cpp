#include "synth/sense/sensors.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"
#include "podrate/weight/gravity.hpp"

namespace podrate::sim {
namespace {

// Common practice, no source.
constexpr double kTiltNoiseDeg = 0.15;
constexpr double kRoughDeg = 0.5;       // how far uneven ground tips the machine, sd
constexpr double kRoughS = 1.5;         // how long a tip lasts
constexpr double kSpeedNoise = 0.015;   // m/s
constexpr double kSpeedQuantum = 0.01;  // m/s
constexpr double kSlipMemoryS = 60.0;
constexpr double kPlaceNoiseM = 0.25;
constexpr double kPlaceMemoryS = 30.0;
constexpr double kJumpS = 12.0;
constexpr double kCalibrationLatDeg = 52.5;
constexpr double kGravity = 9.81;
constexpr double kDegPerRad = 57.29577951308232;

double sin2_of(double lat_deg) {
    const double sine = math::sin_cos(math::deg_to_rad(lat_deg)).sin;
    return sine * sine;
}

}  // namespace

Sensors::Sensors(const Scenario& scenario, const ScenarioMachine& machine)
    : machine_(machine),
      faults_(scenario.faults, machine.id),
      scale_(scenario, machine),
      loss_(machine.hits, scenario.seed, machine.id),
      tilt_noise_(scenario.seed, "tilt " + machine.id),
      speed_noise_(scenario.seed, "speed " + machine.id),
      place_noise_(scenario.seed, "place " + machine.id),
      spells_(scenario.seed, "spells " + machine.id),
      gravity_share_(normal_gravity_mps2(sin2_of(scenario.origin.lat_deg)) /
                     normal_gravity_mps2(sin2_of(kCalibrationLatDeg))) {}

// The machine tips with slope and ground. An inclinometer takes acceleration for a slope besides.
void Sensors::sense_tilt(const VinerTruth& truth, const ScenarioField& field, double dt_s) {
    if (truth.speed_mps > 0.0) {
        rough_pitch_deg_ = tilt_noise_.wander(rough_pitch_deg_, kRoughDeg, kRoughS, dt_s);
        rough_roll_deg_ = tilt_noise_.wander(rough_roll_deg_, kRoughDeg, kRoughS, dt_s);
    }
    const auto slope = math::sin_cos(math::deg_to_rad(truth.pose.heading_deg - field.downhill_deg));
    true_pitch_deg_ = -field.slope_deg * slope.cos + rough_pitch_deg_;
    true_roll_deg_ = -field.slope_deg * slope.sin + rough_roll_deg_;
    const double accelerating = (truth.speed_mps - last_true_mps_) / dt_s;
    last_true_mps_ = truth.speed_mps;
    pitch_deg_ =
        true_pitch_deg_ + accelerating / kGravity * kDegPerRad + tilt_noise_.normal(0.0, kTiltNoiseDeg);
    roll_deg_ = true_roll_deg_ + tilt_noise_.normal(0.0, kTiltNoiseDeg);
}

void Sensors::sense_speed(double time_s, const VinerTruth& truth, double dt_s) {
    const ScenarioSenses& told = machine_.senses;
    slip_ = speed_noise_.wander(slip_, told.slip_sd, kSlipMemoryS, dt_s);
    const double rolled =
        truth.speed_mps * (1.0 + told.slip_share + slip_) + speed_noise_.normal(0.0, kSpeedNoise);
    const bool still = truth.speed_mps <= 0.0 || rolled < told.dead_band_mps;
    speed_mps_ = still ? 0.0 : std::round(rolled / kSpeedQuantum) * kSpeedQuantum;
    if (faults_.active(FaultKind::speed_zero, time_s) != nullptr) speed_mps_ = 0.0;
    if (faults_.active(FaultKind::speed_stuck, time_s) != nullptr) speed_mps_ = stuck_mps_;
    stuck_mps_ = speed_mps_;
}

bool Sensors::in_spell(Spell& spell, double time_s, double per_h, double mean_s) {
    if (per_h <= 0.0) return false;
    if (time_s >= spell.ends_s) {
        spell.begins_s = time_s + spells_.exponential(3600.0 / per_h);
        spell.ends_s = spell.begins_s + spells_.exponential(mean_s);
    }
    return time_s >= spell.begins_s;
}

void Sensors::sense_place(double time_s, const VinerTruth& truth, double dt_s) {
    const ScenarioSenses& told = machine_.senses;
    place_error_.east_m = place_noise_.wander(place_error_.east_m, kPlaceNoiseM, kPlaceMemoryS, dt_s);
    place_error_.north_m = place_noise_.wander(place_error_.north_m, kPlaceNoiseM, kPlaceMemoryS, dt_s);
    const double jump_began_s = jump_.begins_s;
    const bool jumped = in_spell(jump_, time_s, told.place_jumps_per_h, kJumpS);
    if (jump_.begins_s != jump_began_s) {
        const auto direction = math::sin_cos(math::deg_to_rad(360.0 * spells_.uniform()));
        jump_m_ = {told.place_jump_m * direction.sin, told.place_jump_m * direction.cos};
    }
    place_known_ = !in_spell(outage_, time_s, told.place_outages_per_h, told.place_outage_s);
    place_ = {truth.pose.place.east_m + place_error_.east_m + (jumped ? jump_m_.east_m : 0.0),
              truth.pose.place.north_m + place_error_.north_m + (jumped ? jump_m_.north_m : 0.0)};
    heading_deg_ = truth.pose.heading_deg + place_noise_.normal(0.0, told.heading_noise_deg);
    heading_deg_ -= 360.0 * std::floor(heading_deg_ / 360.0);
}

void Sensors::sense(double time_s, const VinerTruth& truth, const ScenarioField& field, double dt_s) {
    sense_tilt(truth, field, dt_s);
    scale_.read(time_s, truth, true_pitch_deg_, true_roll_deg_, gravity_share_, dt_s);
    sense_speed(time_s, truth, dt_s);
    sense_place(time_s, truth, dt_s);
    loss_hits_ = loss_.hits_by(time_s);
    if (faults_.active(FaultKind::tilt_dead, time_s) != nullptr) {
        pitch_deg_ = 0.0;
        roll_deg_ = 0.0;
    }
}

}  // namespace podrate::sim
