#include "synth/machine/viner.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "synth/land/way.hpp"

namespace podrate::sim {
namespace {

constexpr double kNearS = 1e-9;

}  // namespace

Viner::Viner(const Scenario& scenario, const ScenarioMachine& machine, std::size_t place_in_gang, double dt_s,
             const Gang& gang)
    : machine_(machine),
      events_(scenario, machine),
      dt_s_(dt_s),
      random_(scenario.seed, "viner " + machine.id),
      driver_(machine.driver,
              scenario.fields.front().crop_kgpm2 * (1.0 + machine.drum.haulm_ratio) * machine.width_m,
              scenario.seed, machine.id),
      works_(scenario, machine, dt_s, gang) {
    now().pose.place = scenario.fields.front().corners.front();
    tip_at_kg_ = machine.hopper_capacity_kg * random_.uniform(0.75, 0.9);
    begin_phase(Phase::arriving, 20.0 + 25.0 * static_cast<double>(place_in_gang));
}

void Viner::begin_phase(Phase phase, double for_s) {
    phase_ = phase;
    phase_left_s_ = for_s;
}

// Brakes; once the machine stands, `phase` begins.
void Viner::stand(Phase phase, double for_s) {
    stopping_ = true;
    after_stop_ = phase;
    after_stop_s_ = for_s;
}

void Viner::take_events(double time_s) {
    if (stopping_) return;
    const ScenarioEvent* event = events_.stop_due(time_s);
    const double left_m = distance_between_m(bout_.from, bout_.to) - bout_done_m_;
    const bool deep_in_bout = phase_ == Phase::bout && bout_done_m_ > 25.0 && left_m > 25.0;
    if (event == nullptr || !deep_in_bout) return;  // waits for the machine to be in crop
    stand(event->kind == ScenarioEvent::Kind::breakdown ? Phase::broken : Phase::paused, event->for_s);
    events_.take_stop();
}

bool Viner::take_rest(double time_s) {
    bool hands_over = false;
    const double for_s = events_.take_rest(time_s, hands_over);
    if (hands_over) driver_.hand_over();
    if (for_s > 0.0) stand(Phase::resting, for_s);
    return for_s > 0.0;
}

void Viner::next_bout(Gang& gang) {
    in_bout_ = false;
    const std::size_t field = gang.field();
    const std::optional<Bout> bout = gang.take_bout(field, now().pose.place);
    if (!bout) {
        stand(Phase::idle, 0.0);
        return;
    }
    travelling_ = field != now().field || distance_between_m(now().pose.place, bout->from) > kFarM;
    bout_ = *bout;
    now().field = field;
    path_ = way_to_bout(now().pose, bout_, 0.5 * machine_.width_m, gang.field_told(field).obstacles);
    if (path_.length_m() > kJourneyM) travelling_ = true;
    path_done_m_ = 0.0;
    path_speed_mps_ = travelling_ ? kTravelSpeed : kTurnSpeed;
    begin_phase(Phase::on_path, 0.0);
}

void Viner::drive_path() {
    const double left_m = path_.length_m() - path_done_m_;
    const double wish_mps = driver_.last_wish_mps();
    const double arriving_mps =
        std::sqrt(wish_mps * wish_mps + 2.0 * 0.8 * kAcceleration * std::max(left_m, 0.0));
    works_.change_speed(std::min(path_speed_mps_, arriving_mps));
    path_done_m_ += now().speed_mps * dt_s_;
    now().pose = path_.at(path_done_m_);
    if (path_done_m_ < path_.length_m()) return;
    bout_done_m_ = 0.0;
    in_bout_ = true;
    begin_phase(Phase::bout, 0.0);
}

void Viner::drive_bout() {
    const CropHere& here = works_.crop_here();
    const double here_kgpm =
        here.standing_kgpm2 * (1.0 + machine_.drum.haulm_ratio * here.haulm_factor) * machine_.width_m;
    const double wish_mps = driver_.wish_mps(here_kgpm, here.lodged, dt_s_);
    works_.change_speed(stopping_ ? 0.0 : wish_mps);
    bout_done_m_ += now().speed_mps * dt_s_;
    now().pose = pose_along(bout_, bout_done_m_);
    if (stopping_) return;
    if (bout_done_m_ >= distance_between_m(bout_.from, bout_.to)) {
        in_bout_ = false;
        begin_phase(Phase::headland, 0.0);
    } else if (now().mass_kg > kFullShare * machine_.hopper_capacity_kg) {
        stand(Phase::waiting, random_.uniform(15.0, 90.0));
    }
}

void Viner::go_on(Gang& gang) {
    if (in_bout_) {
        begin_phase(Phase::bout, 0.0);
    } else {
        next_bout(gang);
    }
}

// Without trailers in the scenario there is always one.
bool Viner::may_tip(double time_s, Gang& gang) {
    if (!gang.trailers().any()) return true;
    trailer_ = gang.trailers().take(now().mass_kg, time_s, kRaiseS + kPourS + kLowerS);
    return trailer_ >= 0;
}

void Viner::pour(double time_s, Gang& gang) {
    if (!works_.pour(time_s)) return;
    gang.trailers().fill(trailer_, works_.poured_kg());
    tip_at_kg_ = machine_.hopper_capacity_kg * random_.uniform(0.75, 0.92);
    begin_phase(Phase::lowering, kLowerS);
}

// At the end of a bout: rolls out, tips, rests, or goes for the next.
void Viner::drive_headland(double time_s, Gang& gang) {
    if (stopping_) {
        works_.change_speed(0.0);
        const auto direction = math::sin_cos(math::deg_to_rad(now().pose.heading_deg));
        now().pose.place.east_m += now().speed_mps * dt_s_ * direction.sin;
        now().pose.place.north_m += now().speed_mps * dt_s_ * direction.cos;
    } else if (now().mass_kg > tip_at_kg_) {
        stand(Phase::waiting, gang.trailers().any() ? 5.0 : random_.uniform(10.0, 120.0));
    } else if (!take_rest(time_s)) {
        next_bout(gang);
    }
}

void Viner::drive(double time_s, Gang& gang) {
    if (stopping_ && now().speed_mps <= 0.0) {
        stopping_ = false;
        begin_phase(after_stop_, after_stop_s_);
    }
    const bool standing_phase =
        phase_ != Phase::bout && phase_ != Phase::on_path && phase_ != Phase::headland;
    if (standing_phase && phase_ != Phase::pouring) phase_left_s_ -= dt_s_;
    const bool over = phase_left_s_ <= kNearS;
    switch (phase_) {
        case Phase::bout: drive_bout(); break;
        case Phase::on_path: drive_path(); break;
        case Phase::headland: drive_headland(time_s, gang); break;
        case Phase::waiting:
            if (over && may_tip(time_s, gang)) begin_phase(Phase::raising, kRaiseS);
            break;
        case Phase::raising:
            if (!over) break;
            works_.begin_pouring(time_s, std::abs(random_.normal(0.0, 2.0)));
            begin_phase(Phase::pouring, kPourS);
            break;
        case Phase::pouring: pour(time_s, gang); break;
        case Phase::lowering:
        case Phase::paused:
        case Phase::broken:
        case Phase::resting:
            if (over) go_on(gang);
            break;
        case Phase::arriving:
            if (over) next_bout(gang);
            break;
        case Phase::idle: break;
    }
}

void Viner::set_state() {
    const bool moving = now().speed_mps > 0.0;
    now().reel_on = (phase_ == Phase::bout && (moving || !stopping_)) || phase_ == Phase::paused;
    if (phase_ == Phase::pouring || phase_ == Phase::lowering) {
        now().state = WorkState::tipping;
    } else if (phase_ == Phase::paused) {
        now().state = WorkState::paused_in_crop;
    } else if (phase_ == Phase::waiting || phase_ == Phase::raising) {
        now().state = WorkState::waiting;
    } else if (moving && phase_ == Phase::bout) {
        now().state = WorkState::harvesting;
    } else if (moving) {
        now().state = travelling_ && phase_ == Phase::on_path ? WorkState::travelling : WorkState::turning;
    } else {
        now().state = WorkState::stopped;
    }
}

void Viner::step(double time_s, Gang& gang) {
    take_events(time_s);
    drive(time_s, gang);
    set_state();
    works_.step(time_s, phase_ == Phase::bout, bout_.cut_m);
}

}  // namespace podrate::sim
