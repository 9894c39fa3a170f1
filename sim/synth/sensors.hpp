// What the cab's sensors make of the truth.
#pragma once

#include "synth/random.hpp"
#include "synth/viner.hpp"

namespace podrate::sim {

class Sensors {
  public:
    Sensors(const Scenario& scenario, const ScenarioMachine& machine);

    // Call once each row, `dt_s` after the last.
    void sense(double time_s, const VinerTruth& truth, const ScenarioField& field, double dt_s);

    [[nodiscard]] double hopper_kg() const { return hopper_kg_; }
    [[nodiscard]] double speed_mps() const { return speed_mps_; }
    [[nodiscard]] double pitch_deg() const { return pitch_deg_; }
    [[nodiscard]] double roll_deg() const { return roll_deg_; }
    [[nodiscard]] EastNorth place() const { return place_; }
    [[nodiscard]] double heading_deg() const { return heading_deg_; }

  private:
    void sense_tilt(const VinerTruth& truth, const ScenarioField& field, double dt_s);
    void sense_weight(const VinerTruth& truth, double dt_s);
    void spoil(double time_s);

    const ScenarioMachine& machine_;
    Faults faults_;
    Random weight_noise_;
    Random tilt_noise_;
    Random speed_noise_;
    Random place_noise_;
    double gravity_share_;
    double zero_kg_;
    double tone_phase_ = 0.0;
    double true_pitch_deg_ = 0.0;
    double true_roll_deg_ = 0.0;
    double rough_pitch_deg_ = 0.0;
    double rough_roll_deg_ = 0.0;
    EastNorth place_error_;

    double stuck_kg_ = 0.0;  // what a stuck sensor goes on showing
    double stuck_mps_ = 0.0;
    double hopper_kg_ = 0.0;
    double speed_mps_ = 0.0;
    double pitch_deg_ = 0.0;
    double roll_deg_ = 0.0;
    EastNorth place_;
    double heading_deg_ = 0.0;
};

}  // namespace podrate::sim
