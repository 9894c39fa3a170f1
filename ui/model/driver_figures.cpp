#include "model/driver_figures.hpp"

#include <algorithm>
#include <cmath>

#include "log/units.hpp"
#include "model/clock_text.hpp"
#include "model/words.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr double kRecentMinutes = 15.0;
constexpr double kLeastRateAxis = 6.0;  // in the unit shown
constexpr std::size_t kRecentStep = 6;  // snapshots are half a second apart: a point each 3 s
constexpr std::size_t kMostLoads = 4;
constexpr double kNearlyFullShare = 0.85;
constexpr double kFullShare = 0.97;
constexpr double kStaleS = 3.0;

std::string interval(const Speech& say, Quantity quantity, double value, double sd) {
    return figures(say, quantity, std::max(0.0, value - sim::kReach90 * sd), value + sim::kReach90 * sd);
}

// "+-12 kg", 9 times in 10.
std::string doubt(const Speech& say, Quantity quantity, Real sd) {
    return "\xC2\xB1" + with_unit(say, quantity, sim::kReach90 * static_cast<double>(sd));
}

void add_rate(const Estimate& e, DriverFigures& f) {
    const double rate = std::max(0.0, static_cast<double>(e.flow_kgps));
    f.rate = figure(f.say, Quantity::rate, rate);
    f.rate_interval = interval(f.say, Quantity::rate, rate, static_cast<double>(e.flow_sd_kgps));
}

// The axis ends at an even number of the unit shown.
void add_rate_axis(double highest_tph, DriverFigures& f) {
    const double shown_per_tph = unit_of(Quantity::rate, f.say.units).per_si / sim::kTphPerKgps;
    const double end = 2.0 * std::ceil(std::max(kLeastRateAxis, highest_tph * shown_per_tph) / 2.0);
    f.rate_scale_tph = end / shown_per_tph;
    for (int i = 0; i < 3; ++i) f.rate_marks[i] = f.say.number(end * i / 2.0, 0);
}

void add_recent(const MachineRecording& machine, TimeUs now_us, DriverFigures& f) {
    f.recent_minutes = kRecentMinutes;
    double highest = 0.0;
    const auto from_us = now_us - static_cast<TimeUs>(kRecentMinutes * 60e6);
    const std::size_t end = machine.index_after(now_us);
    for (std::size_t i = machine.index_after(from_us); i < end; ++i) {
        if ((end - 1 - i) % kRecentStep != 0) continue;
        const Estimate& e = machine.snapshots[i];
        const double rate = std::max(0.0, static_cast<double>(e.flow_kgps)) * sim::kTphPerKgps;
        const double reach = sim::kReach90 * static_cast<double>(e.flow_sd_kgps) * sim::kTphPerKgps;
        f.recent.push_back({static_cast<double>(now_us - e.time_us) / 60e6, rate, std::max(0.0, rate - reach),
                            rate + reach});
        highest = std::max(highest, rate + reach);
    }
    add_rate_axis(highest, f);
}

void add_yield(const Estimate& e, DriverFigures& f) {
    const auto yield = static_cast<double>(e.yield_kgpm2);
    f.yield_here = figure(f.say, Quantity::yield, yield);
    f.yield_interval = interval(f.say, Quantity::yield, yield, static_cast<double>(e.yield_sd_kgpm2));
    f.area_cut = with_unit(f.say, Quantity::area, static_cast<double>(e.area_m2));
}

void add_hopper(const Estimate& e, const MachineRecording& machine, DriverFigures& f) {
    const auto share = static_cast<double>(e.level_share);
    f.level_share = std::clamp(share, 0.0, 1.0);
    f.level_percent = f.say.number(100.0 * std::max(0.0, share), 0);
    f.in_hopper = f.say(
        Text::part_of,
        {with_unit(f.say, Quantity::load, std::max(0.0, static_cast<double>(e.mass_kg))),
         with_unit(f.say, Quantity::capacity, static_cast<double>(machine.parameters.hopper_capacity_kg))});
    const auto metres = static_cast<double>(e.distance_to_full_m);
    const auto seconds = static_cast<double>(e.time_to_full_s);
    if (e.state == WorkState::tipping) {
        f.full_in = f.say(Text::emptying);
    } else if (metres < 0.0) {
        f.full_in = f.say(Text::full_unknown);
    } else if (share >= kFullShare) {
        f.full_in = f.say(Text::full);
    } else {
        const double minutes = std::max(1.0, std::round(seconds / 60.0));
        const bool comes = e.state == WorkState::harvesting || e.state == WorkState::turning;
        // A standing machine is not on its way to a full hopper: say how much work that is, not when.
        f.full_in = f.say(comes ? Text::full_in : Text::work_to_full, {f.say.number(minutes, 0)});
        f.full_after = f.say(Text::of_crop, {with_unit(f.say, Quantity::distance, metres)});
    }
    const bool tip_near =
        share > kNearlyFullShare || e.state == WorkState::waiting || e.state == WorkState::tipping;
    if (tip_near) f.caution = f.say(Text::tip_caution);
}

void add_loads(const MachineRecording& machine, const std::string& time_zone, TimeUs now_us,
               DriverFigures& f) {
    for (auto load = machine.loads.rbegin(); load != machine.loads.rend() && f.loads.size() < kMostLoads;
         ++load) {
        if (load->closed_us > now_us) continue;
        f.loads.push_back({std::to_string(load->number), clock_text(load->end_us, time_zone, false),
                           with_unit(f.say, Quantity::load, static_cast<double>(load->net_kg)),
                           doubt(f.say, Quantity::load_doubt, load->net_sd_kg)});
    }
}

}  // namespace

DriverFigures driver_figures(const Recording& recording, std::size_t machine_index, TimeUs time_us,
                             const Speech& say) {
    const MachineRecording& machine = recording.machines[machine_index];
    DriverFigures f;
    f.say = say;
    f.machine = machine.id;
    f.day = recording.label;
    f.clock = clock_text(time_us, recording.time_zone, true);
    const Estimate* e = machine.at(time_us);
    if (e == nullptr || static_cast<double>(time_us - e->time_us) / 1e6 > kStaleS) {
        f.state_word = say(Text::state_no_data);
        f.no_data = machine.refusal.empty() ? Telling{say(Text::no_samples), say(Text::no_samples_check)}
                                            : Telling{say(Text::log_refused), machine.refusal};
        return f;
    }
    f.known = true;
    f.state = e->state;
    f.state_word = say(word_for(e->state));
    add_rate(*e, f);
    add_recent(machine, time_us, f);
    add_hopper(*e, machine, f);
    f.speed = speed_figures(*e, machine.parameters, say);
    f.loss = loss_figures(*e, machine.parameters, say);
    f.alarm = alarm_line(machine, *e, say);
    if (e->area_m2 > Real(0)) add_yield(*e, f);
    f.total = figure(say, Quantity::total, static_cast<double>(e->harvested_kg));
    f.total_doubt = doubt(say, Quantity::total_doubt, e->harvested_sd_kg);
    f.total_since =
        say(Text::since, {clock_text(machine.snapshots.front().time_us, recording.time_zone, false)});
    add_loads(machine, recording.time_zone, time_us, f);
    return f;
}

}  // namespace podrate::ui
