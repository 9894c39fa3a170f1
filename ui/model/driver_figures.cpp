#include "model/driver_figures.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "log/units.hpp"
#include "model/clock_text.hpp"
#include "model/words.hpp"

namespace podrate::ui {
namespace {

constexpr double kReach90 = 1.6448536;
constexpr double kRecentMinutes = 15.0;
constexpr std::size_t kRecentStep = 6;  // snapshots are half a second apart: a point each 3 s
constexpr std::size_t kMostLoads = 4;
constexpr double kNearlyFullShare = 0.85;
constexpr double kFullShare = 0.97;
constexpr double kStaleS = 3.0;

std::string interval(double value, double sd, int decimals) {
    const double low = std::max(0.0, value - kReach90 * sd);
    return sim::fixed(low, decimals) + " to " + sim::fixed(value + kReach90 * sd, decimals);
}

void add_rate(const Estimate& e, DriverFigures& f) {
    const double rate = std::max(0.0, static_cast<double>(e.flow_kgps)) * sim::kTphPerKgps;
    f.rate = sim::fixed(rate, 1);
    f.rate_interval = interval(rate, static_cast<double>(e.flow_sd_kgps) * sim::kTphPerKgps, 1);
}

void add_recent(const MachineRecording& machine, TimeUs now_us, DriverFigures& f) {
    f.recent_minutes = kRecentMinutes;
    double highest = 6.0;
    const auto from_us = now_us - static_cast<TimeUs>(kRecentMinutes * 60e6);
    const std::size_t end = machine.index_after(now_us);
    for (std::size_t i = machine.index_after(from_us); i < end; ++i) {
        if ((end - 1 - i) % kRecentStep != 0) continue;
        const Estimate& e = machine.snapshots[i];
        const double rate = std::max(0.0, static_cast<double>(e.flow_kgps)) * sim::kTphPerKgps;
        const double reach = kReach90 * static_cast<double>(e.flow_sd_kgps) * sim::kTphPerKgps;
        f.recent.push_back({static_cast<double>(now_us - e.time_us) / 60e6, rate, std::max(0.0, rate - reach),
                            rate + reach});
        highest = std::max(highest, rate + reach);
    }
    f.rate_scale_tph = std::ceil(highest / 2.0) * 2.0;
}

void add_yield(const Estimate& e, DriverFigures& f) {
    const double yield = static_cast<double>(e.yield_kgpm2) * sim::kTphaPerKgpm2;
    f.yield_tpha = sim::fixed(yield, 1);
    f.yield_interval = interval(yield, static_cast<double>(e.yield_sd_kgpm2) * sim::kTphaPerKgpm2, 1);
    f.area_ha = sim::fixed(static_cast<double>(e.area_m2) / 1e4, 2);
}

void add_hopper(const Estimate& e, const MachineRecording& machine, DriverFigures& f) {
    const auto share = static_cast<double>(e.level_share);
    f.level_share = std::clamp(share, 0.0, 1.0);
    f.level_percent = sim::fixed(100.0 * std::max(0.0, share), 0);
    f.in_hopper = sim::fixed(std::max(0.0, static_cast<double>(e.mass_kg)) / 1e3, 2) + " t of " +
                  sim::fixed(static_cast<double>(machine.parameters.hopper_capacity_kg) / 1e3, 1) + " t";
    const auto metres = static_cast<double>(e.distance_to_full_m);
    const auto seconds = static_cast<double>(e.time_to_full_s);
    if (e.state == WorkState::tipping) {
        f.full_in = "emptying";
    } else if (metres < 0.0) {
        f.full_in = "time to full not known";
    } else if (share >= kFullShare) {
        f.full_in = "full";
    } else {
        const double minutes = std::max(1.0, std::round(seconds / 60.0));
        const bool comes = e.state == WorkState::harvesting || e.state == WorkState::turning;
        // A standing machine is not on its way to a full hopper: say how much work that is, not when.
        f.full_in = comes ? "full in " + sim::fixed(minutes, 0) + " min"
                          : sim::fixed(minutes, 0) + " min of work to full";
        f.full_after = sim::fixed(std::round(metres / 10.0) * 10.0, 0) + " m of crop";
    }
    const bool tip_near =
        share > kNearlyFullShare || e.state == WorkState::waiting || e.state == WorkState::tipping;
    if (tip_near) f.caution = kTipCaution;
}

void add_loads(const MachineRecording& machine, const std::string& time_zone, TimeUs now_us,
               DriverFigures& f) {
    for (auto load = machine.loads.rbegin(); load != machine.loads.rend() && f.loads.size() < kMostLoads;
         ++load) {
        if (load->closed_us > now_us) continue;
        f.loads.push_back(
            {std::to_string(load->number), clock_text(load->end_us, time_zone, false),
             sim::fixed(static_cast<double>(load->net_kg) / 1e3, 2) + " t",
             "\xC2\xB1" + sim::fixed(kReach90 * static_cast<double>(load->net_sd_kg), 0) + " kg"});
    }
}

}  // namespace

DriverFigures driver_figures(const Recording& recording, std::size_t machine_index, TimeUs time_us) {
    const MachineRecording& machine = recording.machines[machine_index];
    DriverFigures f;
    f.machine = machine.id;
    f.day = recording.label;
    f.clock = clock_text(time_us, recording.time_zone, true);
    const Estimate* e = machine.at(time_us);
    if (e == nullptr || static_cast<double>(time_us - e->time_us) / 1e6 > kStaleS) {
        f.state_word = "No data";
        f.no_data = machine.refusal.empty() ? Telling{"No samples at this time", "Nothing above is current."}
                                            : Telling{"The log of this machine was refused", machine.refusal};
        return f;
    }
    f.known = true;
    f.state = e->state;
    f.state_word = word_for(e->state);
    add_rate(*e, f);
    add_recent(machine, time_us, f);
    add_hopper(*e, machine, f);
    f.speed = speed_figures(*e, machine.parameters);
    f.loss = loss_figures(*e, machine.parameters);
    f.alarm = alarm_line(machine, *e);
    if (e->area_m2 > Real(0)) add_yield(*e, f);
    f.total_t = sim::fixed(static_cast<double>(e->harvested_kg) / 1e3, 1);
    f.total_doubt =
        "\xC2\xB1" + sim::fixed(kReach90 * static_cast<double>(e->harvested_sd_kg) / 1e3, 2) + " t";
    f.total_since = "Since " + clock_text(machine.snapshots.front().time_us, recording.time_zone, false);
    add_loads(machine, recording.time_zone, time_us, f);
    return f;
}

}  // namespace podrate::ui
