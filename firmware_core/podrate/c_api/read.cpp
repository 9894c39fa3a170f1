// What the estimator says, as plain structs.
#include "podrate/c_api/held.hpp"

using namespace podrate;

namespace {

float f(Real value) {
    return static_cast<float>(value);
}

std::uint8_t flag(bool value) {
    return value ? 1 : 0;
}

podrate_speed speed_of(const SpeedRange& range) {
    if (!range.known) return {0.0F, 0.0F, 0.0F};
    return {f(range.speed_mps), f(range.low_mps), f(range.high_mps)};
}

void tell_loss(const Estimate& e, podrate_estimate& to) {
    to.loss_share = f(e.loss_share);
    to.loss_low = f(e.loss_low);
    to.loss_high = f(e.loss_high);
    to.drum_loss_share = f(e.drum_loss_share);
    to.drum_loss_low = f(e.drum_loss_low);
    to.drum_loss_high = f(e.drum_loss_high);
    to.picking_loss_share = f(e.picking_loss_share);
    to.picking_loss_low = f(e.picking_loss_low);
    to.picking_loss_high = f(e.picking_loss_high);
    to.ground_kgpm2 = f(e.ground_kgpm2);
    to.fold = f(e.fold);
    to.loss_learnt = f(e.loss_learnt);
    to.speed_spread = f(e.speed_spread);
    to.tray_checks = e.tray_checks;
    to.loss_sensor = flag(e.loss_sensor);
}

void tell_advice(const Advice& a, podrate_estimate& to) {
    to.advised = speed_of(a.speed);
    to.under_limit = speed_of(a.under_limit);
    to.for_rate = speed_of(a.for_rate);
    to.faster_gained_kgps = f(a.faster.gained_kgps);
    to.faster_ground_kgpm2 = f(a.faster.ground_kgpm2);
    to.slower_gained_kgps = f(a.slower.gained_kgps);
    to.slower_ground_kgpm2 = f(a.slower.ground_kgpm2);
    to.binding = static_cast<std::uint8_t>(a.binding);
    to.past_fold = flag(a.past_fold);
}

podrate_status check_both(const podrate_machine* machine, const void* answer) {
    if (answer == nullptr) return PODRATE_NULL_POINTER;
    return c_api::check(machine);
}

}  // namespace

extern "C" {

podrate_status podrate_read(const podrate_machine* machine, podrate_estimate* estimate) {
    const podrate_status status = check_both(machine, estimate);
    if (status != PODRATE_OK) return status;
    const Estimate e = c_api::held(machine).estimator.read();
    podrate_estimate& to = *estimate;
    to = podrate_estimate();
    to.time_us = e.time_us;
    to.oldest_cut_us = e.oldest_cut_us;
    to.mass_kg = f(e.mass_kg);
    to.mass_sd_kg = f(e.mass_sd_kg);
    to.flow_kgps = f(e.flow_kgps);
    to.flow_sd_kgps = f(e.flow_sd_kgps);
    to.yield_kgpm2 = f(e.yield_kgpm2);
    to.yield_sd_kgpm2 = f(e.yield_sd_kgpm2);
    tell_loss(e, to);
    to.speed_mps = f(e.speed_mps);
    to.harvested_kg = f(e.harvested_kg);
    to.harvested_sd_kg = f(e.harvested_sd_kg);
    to.area_m2 = f(e.area_m2);
    to.load_kg = f(e.load_kg);
    to.level_share = f(e.level_share);
    to.distance_to_full_m = f(e.distance_to_full_m);
    to.time_to_full_s = f(e.time_to_full_s);
    tell_advice(e.advice, to);
    to.alarms = e.alarms;
    to.faults = e.faults;
    to.state = static_cast<std::uint8_t>(e.state);
    to.started = flag(e.started);
    return PODRATE_OK;
}

podrate_status podrate_last_load(const podrate_machine* machine, podrate_load* load) {
    const podrate_status status = check_both(machine, load);
    if (status != PODRATE_OK) return status;
    const Load& last = c_api::held(machine).estimator.last_load();
    if (last.number == 0) return PODRATE_NOT_YET;
    *load = podrate_load();
    load->start_us = last.start_us;
    load->end_us = last.end_us;
    load->closed_us = last.closed_us;
    load->first_cut_us = last.first_cut_us;
    load->number = last.number;
    load->revision = last.revision;
    load->lat_e7 = last.lat_e7;
    load->lon_e7 = last.lon_e7;
    load->net_kg = f(last.net_kg);
    load->net_sd_kg = f(last.net_sd_kg);
    load->area_m2 = f(last.area_m2);
    load->lost_kg = f(last.lost_kg);
    load->place_known = flag(last.place_known);
    return PODRATE_OK;
}

podrate_status podrate_last_pause(const podrate_machine* machine, podrate_pause* pause) {
    const podrate_status status = check_both(machine, pause);
    if (status != PODRATE_OK) return status;
    const Pause& last = c_api::held(machine).estimator.last_pause();
    if (last.end_us == 0) return PODRATE_NOT_YET;
    *pause = podrate_pause();
    pause->start_us = last.start_us;
    pause->end_us = last.end_us;
    pause->number = last.number;
    pause->lat_e7 = last.lat_e7;
    pause->lon_e7 = last.lon_e7;
    pause->heap_kg = f(last.heap_kg);
    pause->surge_kg = f(last.surge_kg);
    pause->place_known = flag(last.place_known);
    pause->surge_known = flag(last.surge_known);
    return PODRATE_OK;
}

podrate_status podrate_loss_so_far(const podrate_machine* machine, podrate_loss* loss) {
    const podrate_status status = check_both(machine, loss);
    if (status != PODRATE_OK) return status;
    const LossSoFar lost = c_api::held(machine).estimator.loss_so_far();
    if (!(lost.collected_kg > Real(0))) return PODRATE_NOT_YET;
    const Share& total = lost.shares.total;
    *loss = {f(lost.collected_kg), f(lost.lost_kg), f(lost.drum_kg),
             f(total.share),       f(total.low),    f(total.high)};
    return PODRATE_OK;
}

podrate_status podrate_read_alarm(const podrate_machine* machine, uint32_t alarm,
                                  struct podrate_alarm* told) {
    const podrate_status status = check_both(machine, told);
    if (status != PODRATE_OK) return status;
    if (alarm >= kAlarms) return PODRATE_NO_SUCH;
    const Alarm& a = c_api::held(machine).estimator.alarms().alarm(static_cast<AlarmId>(alarm));
    *told = {};
    told->since_us = a.since_us();
    told->limit = f(a.limits().limit);
    told->deadband = f(a.limits().deadband);
    told->activations = a.activations();
    told->state = static_cast<std::uint8_t>(a.state());
    told->priority = static_cast<std::uint8_t>(a.limits().priority);
    told->shown = flag(a.shown());
    told->active = flag(a.active());
    told->chattering = flag(a.chattering());
    return PODRATE_OK;
}

}  // extern "C"
