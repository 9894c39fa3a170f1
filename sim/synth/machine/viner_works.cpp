#include "synth/machine/viner_works.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr double kSurgeS = 8.0;  // over which a cleared drum lets go
constexpr double kOverS = 1e-9;
constexpr double kCropStepM = 0.25;  // along a bout, between two looks at the crop

}  // namespace

VinerWorks::VinerWorks(const Scenario& scenario, const ScenarioMachine& machine, double dt_s,
                       const Gang& gang)
    : faults_(scenario.faults, machine.id),
      width_m_(machine.width_m),
      dt_s_(dt_s),
      drum_(machine.drum, dt_s) {
    for (const CropField& crop : gang.crops()) crops_.emplace_back(crop, machine.width_m);
}

void VinerWorks::change_speed(double target_mps) {
    const double most = kAcceleration * dt_s_;
    truth_.speed_mps += std::clamp(target_mps - truth_.speed_mps, -most, most);
}

void VinerWorks::begin_pouring(double time_s, double left_kg) {
    pour_total_kg_ = truth_.mass_kg - std::min(truth_.mass_kg, left_kg);
    leave_part(time_s);
    poured_kg_ = 0.0;
    pour_left_s_ = kPourS;
}

// Peas leave slowly, fast, slowly: the derivative of a smooth step.
bool VinerWorks::pour(double time_s) {
    const double x = 1.0 - pour_left_s_ / kPourS;
    const double rate_kgps = pour_total_kg_ * 6.0 * x * (1.0 - x) / kPourS;
    const double out_kg = std::min(rate_kgps * dt_s_, truth_.mass_kg);
    truth_.mass_kg -= out_kg;
    poured_kg_ += out_kg;
    pour_left_s_ -= dt_s_;
    if (pour_left_s_ > kOverS) return false;
    loads_.push_back({load_start_s_, time_s - kPourS, poured_kg_});
    load_start_s_ = time_s;
    return true;
}

// A tip that leaves peas behind, once.
void VinerWorks::leave_part(double time_s) {
    const ScenarioFault* part = faults_.begun(FaultKind::tip_in_part, time_s);
    if (part == nullptr || part->at_s == left_part_at_s_) return;
    left_part_at_s_ = part->at_s;
    pour_total_kg_ = std::max(0.0, pour_total_kg_ - part->size);
}

// A blocked drum holds its peas; cleared, it lets them go over some seconds.
double VinerWorks::through_blockage(double time_s, double flow_kgps) {
    if (faults_.active(FaultKind::drum_blocked, time_s) != nullptr) {
        held_in_drum_kg_ += flow_kgps * dt_s_;
        return 0.0;
    }
    const double surge_kgps = held_in_drum_kg_ / kSurgeS;
    held_in_drum_kg_ = std::max(0.0, held_in_drum_kg_ - surge_kgps * dt_s_);
    return flow_kgps + surge_kgps;
}

void VinerWorks::lose_peas(double time_s) {
    double lost_kg = 0.0;
    if (const ScenarioFault* hand = faults_.begins(FaultKind::taken_by_hand, time_s, dt_s_))
        lost_kg += hand->size;
    if (const ScenarioFault* leak = faults_.active(FaultKind::hopper_leak, time_s))
        lost_kg += leak->size * dt_s_;
    take_out(lost_kg);
}

void VinerWorks::take_out(double kg) {
    const double out_kg = std::min(std::max(kg, 0.0), truth_.mass_kg);
    truth_.mass_kg -= out_kg;
    gone_kg_ += out_kg;
}

// Looks at the crop afresh every quarter metre of a bout.
void VinerWorks::meet_crop(double time_s, bool in_bout) {
    const bool moved = !crop_met_ || met_field_ != truth_.field ||
                       distance_between_m(met_at_.place, truth_.pose.place) >= kCropStepM;
    if (!moved || (crop_met_ && !in_bout)) return;
    here_ = crops_[truth_.field].at(truth_.pose.place, truth_.pose.heading_deg, time_s);
    met_at_ = truth_.pose;
    met_field_ = truth_.field;
    crop_met_ = true;
}

void VinerWorks::step(double time_s, bool in_bout, double cut_m) {
    meet_crop(time_s, in_bout);
    const bool cutting = in_bout && truth_.reel_on;
    truth_.area_rate_m2ps = cutting ? std::min(cut_m, width_m_) * truth_.speed_mps : 0.0;
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
