#include "synth/hand/hand_viner.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"
#include "synth/land/way.hpp"

namespace podrate::sim {
namespace {

constexpr double kBinOverS = 1e-9;

}  // namespace

HandViner::HandViner(const Scenario& scenario, const ScenarioMachine& machine, double dt_s, Gang& gang)
    : machine_(machine), dt_s_(dt_s), gang_(gang), works_(scenario, machine, dt_s, gang) {
    const std::optional<Bout> first =
        gang.take_bout(gang.field(), scenario.fields[gang.field()].corners.front());
    now().field = gang.field();
    if (first) {
        bout_ = *first;
        now().pose = pose_along(bout_, 0.0);
    } else {
        ground_ = Ground::done;
    }
}

HandRefusal HandViner::change_wish(int steps) {
    if (bin_ != Bin::down) return HandRefusal::tip_under_way;
    if (ground_ == Ground::done) return HandRefusal::field_done;
    wanted_steps_ = std::clamp(wanted_steps_ + steps, 0, kMostSteps);
    return HandRefusal::none;
}

HandRefusal HandViner::halt() {
    if (wanted_steps_ > 0) steps_before_ = wanted_steps_;
    wanted_steps_ = 0;
    return HandRefusal::none;
}

HandRefusal HandViner::go_on() {
    return wanted_steps_ > 0 ? HandRefusal::none : change_wish(steps_before_);
}

HandRefusal HandViner::turn_reel() {
    if (bin_ != Bin::down) return HandRefusal::tip_under_way;
    if (!reel_on_ && ground_ == Ground::turn) return HandRefusal::reel_turning;
    if (!reel_on_ && ground_ == Ground::done) return HandRefusal::field_done;
    reel_on_ = !reel_on_;
    return HandRefusal::none;
}

HandRefusal HandViner::tip() {
    if (bin_ != Bin::down) return HandRefusal::tip_under_way;
    if (truth().speed_mps > 0.0 || wanted_steps_ > 0) return HandRefusal::tip_moving;
    if (reel_on_) return HandRefusal::tip_reel_on;
    if (truth().mass_kg < kLeastTipKg) return HandRefusal::tip_empty;
    bin_ = Bin::rising;
    bin_left_s_ = kRaiseS;
    return HandRefusal::none;
}

double HandViner::left_in_bout_m() const {
    if (ground_ != Ground::bout) return 0.0;
    return std::max(0.0, distance_between_m(bout_.from, bout_.to) - bout_done_m_);
}

double HandViner::tip_left_s() const {
    const double after_s = bin_ == Bin::rising ? kPourS + kLowerS : bin_ == Bin::pouring ? kLowerS : 0.0;
    return bin_ == Bin::down ? 0.0 : std::max(0.0, bin_left_s_) + after_s;
}

void HandViner::run_bin(double time_s) {
    if (bin_ == Bin::down) return;
    bin_left_s_ -= dt_s_;
    const bool over = bin_left_s_ <= kBinOverS;
    if (bin_ == Bin::pouring) {
        if (!works_.pour(time_s)) return;
        bin_ = Bin::sinking;
        bin_left_s_ = kLowerS;
    } else if (bin_ == Bin::rising && over) {
        works_.begin_pouring(time_s, 0.0);
        bin_ = Bin::pouring;
        bin_left_s_ = kPourS;
    } else if (over) {
        bin_ = Bin::down;
    }
}

void HandViner::drive_bout() {
    works_.change_speed(wanted_mps());
    const double driven_m = now().speed_mps * dt_s_;
    bout_done_m_ += driven_m;
    now().pose = pose_along(bout_, bout_done_m_);
    if (!reel_on_) passed_over_m2_ += driven_m * std::min(bout_.cut_m, machine_.width_m);
    if (bout_done_m_ < distance_between_m(bout_.from, bout_.to)) return;
    if (reel_on_) {
        ground_ = Ground::headland;
    } else {
        begin_turn();
    }
}

// Out of the crop with the reel on: it brakes, and waits for the reel to be lifted.
void HandViner::roll_out() {
    if (!reel_on_) return begin_turn();
    works_.change_speed(0.0);
    const auto direction = math::sin_cos(math::deg_to_rad(now().pose.heading_deg));
    now().pose.place.east_m += now().speed_mps * dt_s_ * direction.sin;
    now().pose.place.north_m += now().speed_mps * dt_s_ * direction.cos;
}

void HandViner::begin_turn() {
    const std::optional<Bout> next = gang_.take_bout(gang_.field(), now().pose.place);
    if (!next) {
        ground_ = Ground::done;
        wanted_steps_ = 0;
        return;
    }
    travelling_ = gang_.field() != now().field || distance_between_m(now().pose.place, next->from) > kFarM;
    bout_ = *next;
    now().field = gang_.field();
    path_ = way_to_bout(now().pose, bout_, 0.5 * machine_.width_m, gang_.field_told(now().field).obstacles);
    if (path_.length_m() > kJourneyM) travelling_ = true;
    path_done_m_ = 0.0;
    ground_ = Ground::turn;
}

void HandViner::drive_turn() {
    works_.change_speed(std::min(wanted_mps(), travelling_ ? kTravelSpeed : kTurnSpeed));
    path_done_m_ += now().speed_mps * dt_s_;
    now().pose = path_.at(path_done_m_);
    if (path_done_m_ < path_.length_m()) return;
    bout_done_m_ = 0.0;
    ground_ = Ground::bout;
}

void HandViner::drive() {
    switch (ground_) {
        case Ground::bout: drive_bout(); break;
        case Ground::headland: roll_out(); break;
        case Ground::turn: drive_turn(); break;
        case Ground::done: works_.change_speed(0.0); break;
    }
}

void HandViner::set_state() {
    const bool moving = now().speed_mps > 0.0;
    now().reel_on = reel_on_;
    if (bin_ == Bin::pouring || bin_ == Bin::sinking) {
        now().state = WorkState::tipping;
    } else if (moving && ground_ == Ground::bout && reel_on_) {
        now().state = WorkState::harvesting;
    } else if (moving) {
        now().state = travelling_ && ground_ == Ground::turn ? WorkState::travelling : WorkState::turning;
    } else if (reel_on_ && ground_ == Ground::bout) {
        now().state = WorkState::paused_in_crop;
    } else if (bin_ == Bin::rising || now().mass_kg > kFullShare * machine_.hopper_capacity_kg) {
        now().state = WorkState::waiting;
    } else {
        now().state = WorkState::stopped;
    }
}

void HandViner::step(double time_s) {
    run_bin(time_s);
    drive();
    set_state();
    works_.step(time_s, ground_ == Ground::bout, bout_.cut_m);
    works_.run_over(kBrimShare * machine_.hopper_capacity_kg);
}

}  // namespace podrate::sim
