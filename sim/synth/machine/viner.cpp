#include "synth/machine/viner.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "synth/land/way.hpp"

namespace podrate::sim {
namespace {

// Common practice, no source.
constexpr double kAcceleration = 0.5;  // m/s2
constexpr double kTurnSpeed = 1.3;     // m/s
constexpr double kTravelSpeed = 4.5;   // m/s, on the way to another field
constexpr double kTurnReachM = 14.0;
constexpr double kJourneyM = 180.0;
constexpr double kRaiseS = 7.0;
constexpr double kPourS = 32.0;
constexpr double kLowerS = 8.0;
constexpr double kSurgeS = 8.0;      // over which a cleared drum lets go
constexpr double kFullShare = 0.97;  // stops in the bout at that level
constexpr double kNearS = 1e-9;
constexpr double kCropStepM = 0.25;  // along a bout, between two looks at the crop

}  // namespace

Viner::Viner(const Scenario& scenario, const ScenarioMachine& machine, std::size_t place_in_gang, double dt_s,
             const Gang& gang)
    : machine_(machine),
      events_(scenario, machine),
      faults_(scenario.faults, machine.id),
      dt_s_(dt_s),
      random_(scenario.seed, "viner " + machine.id),
      driver_(machine.driver,
              scenario.fields.front().crop_kgpm2 * (1.0 + machine.drum.haulm_ratio) * machine.width_m,
              scenario.seed, machine.id),
      drum_(machine.drum, dt_s) {
    for (const CropField& crop : gang.crops()) crops_.emplace_back(crop, machine.width_m);
    truth_.pose.place = scenario.fields.front().corners.front();
    truth_.mass_kg = 0.0;
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

void Viner::change_speed(double target_mps) {
    const double most = kAcceleration * dt_s_;
    truth_.speed_mps += std::clamp(target_mps - truth_.speed_mps, -most, most);
}

void Viner::next_bout(Gang& gang) {
    in_bout_ = false;
    const std::size_t field = gang.field();
    const std::optional<Bout> bout = gang.take_bout(field, truth_.pose.place);
    if (!bout) {
        stand(Phase::idle, 0.0);
        return;
    }
    const double far_m = distance_between_m(truth_.pose.place, bout->from);
    travelling_ = field != truth_.field || far_m > 120.0;
    bout_ = *bout;
    truth_.field = field;
    const Pose start = {bout_.from, heading_from_to_deg(bout_.from, bout_.to)};
    path_ = clear_way(truth_.pose, start, std::max(kTurnReachM, 0.3 * far_m), 0.5 * machine_.width_m,
                      gang.field_told(field).obstacles);
    // A long way round is driven as a journey.
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
    change_speed(std::min(path_speed_mps_, arriving_mps));
    path_done_m_ += truth_.speed_mps * dt_s_;
    truth_.pose = path_.at(path_done_m_);
    if (path_done_m_ < path_.length_m()) return;
    bout_done_m_ = 0.0;
    in_bout_ = true;
    begin_phase(Phase::bout, 0.0);
}

void Viner::drive_bout() {
    const double here_kgpm =
        here_.standing_kgpm2 * (1.0 + machine_.drum.haulm_ratio * here_.haulm_factor) * machine_.width_m;
    const double wish_mps = driver_.wish_mps(here_kgpm, here_.lodged, dt_s_);
    change_speed(stopping_ ? 0.0 : wish_mps);
    bout_done_m_ += truth_.speed_mps * dt_s_;
    const double length_m = distance_between_m(bout_.from, bout_.to);
    const double share = std::min(bout_done_m_ / length_m, 1.0);
    truth_.pose.place = {bout_.from.east_m + share * (bout_.to.east_m - bout_.from.east_m),
                         bout_.from.north_m + share * (bout_.to.north_m - bout_.from.north_m)};
    truth_.pose.heading_deg = heading_from_to_deg(bout_.from, bout_.to);
    if (stopping_) return;
    if (bout_done_m_ >= length_m) {
        in_bout_ = false;
        begin_phase(Phase::headland, 0.0);
    } else if (truth_.mass_kg > kFullShare * machine_.hopper_capacity_kg) {
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
    trailer_ = gang.trailers().take(truth_.mass_kg, time_s, kRaiseS + kPourS + kLowerS);
    return trailer_ >= 0;
}

// Peas leave slowly, fast, slowly: the derivative of a smooth step.
void Viner::pour(double time_s, Gang& gang) {
    const double x = 1.0 - phase_left_s_ / kPourS;
    const double rate_kgps = pour_total_kg_ * 6.0 * x * (1.0 - x) / kPourS;
    const double out_kg = std::min(rate_kgps * dt_s_, truth_.mass_kg);
    truth_.mass_kg -= out_kg;
    poured_kg_ += out_kg;
    phase_left_s_ -= dt_s_;
    if (phase_left_s_ > kNearS) return;
    gang.trailers().fill(trailer_, poured_kg_);
    loads_.push_back({load_start_s_, time_s - kPourS, poured_kg_});
    load_start_s_ = time_s;
    tip_at_kg_ = machine_.hopper_capacity_kg * random_.uniform(0.75, 0.92);
    begin_phase(Phase::lowering, kLowerS);
}

// At the end of a bout: rolls out, tips, rests, or goes for the next.
void Viner::drive_headland(double time_s, Gang& gang) {
    if (stopping_) {
        change_speed(0.0);
        const auto direction = math::sin_cos(math::deg_to_rad(truth_.pose.heading_deg));
        truth_.pose.place.east_m += truth_.speed_mps * dt_s_ * direction.sin;
        truth_.pose.place.north_m += truth_.speed_mps * dt_s_ * direction.cos;
    } else if (truth_.mass_kg > tip_at_kg_) {
        stand(Phase::waiting, gang.trailers().any() ? 5.0 : random_.uniform(10.0, 120.0));
    } else if (!take_rest(time_s)) {
        next_bout(gang);
    }
}

void Viner::drive(double time_s, Gang& gang) {
    if (stopping_ && truth_.speed_mps <= 0.0) {
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
            pour_total_kg_ = truth_.mass_kg - std::min(truth_.mass_kg, std::abs(random_.normal(0.0, 2.0)));
            leave_part(time_s);
            poured_kg_ = 0.0;
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
    const bool moving = truth_.speed_mps > 0.0;
    truth_.reel_on = (phase_ == Phase::bout && (moving || !stopping_)) || phase_ == Phase::paused;
    if (phase_ == Phase::pouring || phase_ == Phase::lowering) {
        truth_.state = WorkState::tipping;
    } else if (phase_ == Phase::paused) {
        truth_.state = WorkState::paused_in_crop;
    } else if (phase_ == Phase::waiting || phase_ == Phase::raising) {
        truth_.state = WorkState::waiting;
    } else if (moving && phase_ == Phase::bout) {
        truth_.state = WorkState::harvesting;
    } else if (moving) {
        truth_.state = travelling_ && phase_ == Phase::on_path ? WorkState::travelling : WorkState::turning;
    } else {
        truth_.state = WorkState::stopped;
    }
}

// A tip that leaves peas behind, once.
void Viner::leave_part(double time_s) {
    const ScenarioFault* part = faults_.begun(FaultKind::tip_in_part, time_s);
    if (part == nullptr || part == left_part_) return;
    left_part_ = part;
    pour_total_kg_ = std::max(0.0, pour_total_kg_ - part->size);
}

// A blocked drum holds its peas; cleared, it lets them go over some seconds.
double Viner::through_blockage(double time_s, double flow_kgps) {
    if (faults_.active(FaultKind::drum_blocked, time_s) != nullptr) {
        held_in_drum_kg_ += flow_kgps * dt_s_;
        return 0.0;
    }
    const double surge_kgps = held_in_drum_kg_ / kSurgeS;
    held_in_drum_kg_ = std::max(0.0, held_in_drum_kg_ - surge_kgps * dt_s_);
    return flow_kgps + surge_kgps;
}

void Viner::lose_peas(double time_s) {
    double lost_kg = 0.0;
    if (const ScenarioFault* hand = faults_.begins(FaultKind::taken_by_hand, time_s, dt_s_))
        lost_kg += hand->size;
    if (const ScenarioFault* leak = faults_.active(FaultKind::hopper_leak, time_s))
        lost_kg += leak->size * dt_s_;
    truth_.mass_kg -= std::min(lost_kg, truth_.mass_kg);
}

// Looks at the crop afresh every quarter metre of a bout.
void Viner::meet_crop(double time_s) {
    const bool moved = !crop_met_ || met_field_ != truth_.field ||
                       distance_between_m(met_at_.place, truth_.pose.place) >= kCropStepM;
    if (!moved || (crop_met_ && phase_ != Phase::bout)) return;
    here_ = crops_[truth_.field].at(truth_.pose.place, truth_.pose.heading_deg, time_s);
    met_at_ = truth_.pose;
    met_field_ = truth_.field;
    crop_met_ = true;
}

void Viner::step(double time_s, Gang& gang) {
    take_events(time_s);
    drive(time_s, gang);
    set_state();
    meet_crop(time_s);
    const bool cutting = phase_ == Phase::bout && truth_.reel_on;
    const double cut_m = std::min(bout_.cut_m, machine_.width_m);
    truth_.area_rate_m2ps = cutting ? cut_m * truth_.speed_mps : 0.0;
    truth_.standing_kgpm2 = here_.standing_kgpm2;
    truth_.flow_kgps = through_blockage(time_s, drum_.step(truth_.area_rate_m2ps, here_));
    truth_.feed_kgps = drum_.feed_kgps();
    truth_.drum_load = drum_.load();
    truth_.loss_share = drum_.loss_share();
    truth_.picking_loss_share = drum_.picking_loss_share();
    truth_.drum_loss_share = drum_.drum_loss_share();
    truth_.drum_lost_kgps = drum_.drum_lost_kgps();
    truth_.lost_kgpm2 = cutting ? truth_.standing_kgpm2 * truth_.loss_share : 0.0;
    truth_.mass_kg += truth_.flow_kgps * dt_s_;
    truth_.harvested_kg += truth_.flow_kgps * dt_s_;
    lose_peas(time_s);
    truth_.area_m2 += truth_.area_rate_m2ps * dt_s_;
    truth_.cut_kg += truth_.standing_kgpm2 * (1.0 - truth_.loss_share) * truth_.area_rate_m2ps * dt_s_;
    truth_.lost_kg += drum_.lost_kgps() * dt_s_;
}

}  // namespace podrate::sim
