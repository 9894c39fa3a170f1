// What the cab's sensors make of the truth.
#pragma once

#include "synth/machine/viner_works.hpp"
#include "synth/random.hpp"
#include "synth/sense/loss_sensor.hpp"
#include "synth/sense/scale.hpp"

namespace podrate::sim {

class Sensors {
  public:
    // Scenario and machine must outlive it.
    Sensors(const Scenario& scenario, const ScenarioMachine& machine);

    // Call once each step of the plant, with the truth at its end: what is counted in between must not depend
    // on the rows.
    void follow(double time_s, const VinerTruth& truth, double step_s) {
        loss_.pass(time_s, truth.drum_lost_kgps, truth.feed_kgps, step_s);
    }
    // Call once each row, `dt_s` after the last.
    void sense(double time_s, const VinerTruth& truth, const ScenarioField& field, double dt_s);

    [[nodiscard]] const Scale& scale() const { return scale_; }
    [[nodiscard]] double speed_mps() const { return speed_mps_; }
    [[nodiscard]] double pitch_deg() const { return pitch_deg_; }
    [[nodiscard]] double roll_deg() const { return roll_deg_; }
    [[nodiscard]] bool place_known() const { return place_known_; }
    [[nodiscard]] EastNorth place() const { return place_; }
    [[nodiscard]] double heading_deg() const { return heading_deg_; }
    [[nodiscard]] long loss_hits() const { return loss_hits_; }  // since the day's start

  private:
    // Something that comes now and then and lasts a while.
    struct Spell {
        double begins_s = 0.0;
        double ends_s = -1.0;
    };
    void sense_tilt(const VinerTruth& truth, const ScenarioField& field, double dt_s);
    void sense_speed(double time_s, const VinerTruth& truth, double dt_s);
    void sense_place(double time_s, const VinerTruth& truth, double dt_s);
    bool in_spell(Spell& spell, double time_s, double per_h, double mean_s);

    const ScenarioMachine& machine_;
    Faults faults_;
    Scale scale_;
    LossSensor loss_;
    Random tilt_noise_;
    Random speed_noise_;
    Random place_noise_;
    Random spells_;
    double gravity_share_;
    double true_pitch_deg_ = 0.0;
    double true_roll_deg_ = 0.0;
    double rough_pitch_deg_ = 0.0;
    double rough_roll_deg_ = 0.0;
    double last_true_mps_ = 0.0;
    double slip_ = 0.0;  // beyond the usual, as share
    EastNorth place_error_;
    EastNorth jump_m_;
    Spell outage_;
    Spell jump_;

    double stuck_mps_ = 0.0;  // what a stuck sensor goes on showing
    double speed_mps_ = 0.0;
    double pitch_deg_ = 0.0;
    double roll_deg_ = 0.0;
    bool place_known_ = true;
    EastNorth place_;
    double heading_deg_ = 0.0;
    long loss_hits_ = 0;
};

}  // namespace podrate::sim
