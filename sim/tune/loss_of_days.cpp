#include "tune/loss_of_days.hpp"

#include <algorithm>
#include <iterator>
#include <mutex>
#include <set>

#include "season/side_by_side.hpp"
#include "tune/tune_day.hpp"

namespace podrate::sim {
namespace {

// One machine's day.
struct LossPlace {
    const Machine* machine = nullptr;
    std::string day;
    bool usable = false;
    std::string refusal;
    std::uint64_t faults = 0;
    std::vector<LossReading> readings;
};

std::vector<LossPlace> loss_places(const std::vector<TuneDay>& days) {
    std::vector<LossPlace> places;
    for (const TuneDay& day : days) {
        for (const Machine& machine : day.day.machines) {
            places.emplace_back();
            places.back().machine = &machine;
            places.back().day = day.day.label;
        }
    }
    return places;
}

void replay_place(LossPlace& place) {
    HitSum sum;
    const MachineResult result = replay_machine(*place.machine, {&sum}, nullptr);
    place.usable = result.usable;
    place.refusal = result.refusal;
    place.faults = result.problems.faults();
    place.readings = loss_readings(place.day, result, sum.hits());
}

void tell_place(const LossPlace& place, LossOfDays& told) {
    if (!place.usable) {
        told.notes.push_back(place.refusal);
        return;
    }
    if (told.own_machine.empty()) {
        told.own_machine = place.machine->id;
        told.own = place.machine->parameters;
    }
    if (place.faults > 0)
        told.notes.push_back(place.machine->log.string() + ": " + std::to_string(place.faults) +
                             " rows or values left out; `podrate replay` names them");
}

}  // namespace

void HitSum::on_row(const LogRow& row, const Estimate&) {
    if (!row.holds(Column::loss_hits)) return;
    const double count = row[Column::loss_hits];
    if (count_ && count > *count_) hits_ += count - *count_;
    count_ = count;
}

LossOfDays loss_of_days(const LossDays& asked) {
    LossOfDays told;
    const std::vector<TuneDay> days = read_tune_days(asked.folders, asked.base, told.notes);
    for (const TuneDay& day : days) told.problems.append(day.day.problems);
    std::vector<LossPlace> places = loss_places(days);
    std::mutex progress_mutex;
    std::size_t done = 0;
    side_by_side(places.size(), asked.at_once, [&](std::size_t i) {
        replay_place(places[i]);
        const std::lock_guard<std::mutex> lock(progress_mutex);
        ++done;
        if (asked.progress) asked.progress(static_cast<double>(done) / static_cast<double>(places.size()));
    });
    std::set<std::string> seen_days;
    std::set<std::string> seen_machines;
    std::vector<LossReading> readings;
    for (LossPlace& place : places) {
        tell_place(place, told);
        if (!place.usable) continue;
        seen_days.insert(place.day);
        seen_machines.insert(place.machine->id);
        std::move(place.readings.begin(), place.readings.end(), std::back_inserter(readings));
    }
    if (seen_days.empty()) {
        throw RefusedInput({"podrate tune", 0, "no day can be used",
                            told.notes.empty() ? "give a day's folder" : told.notes.front()});
    }
    told.days = seen_days.size();
    told.machines = seen_machines.size();
    told.fit = fit_loss(std::move(readings));
    return told;
}

}  // namespace podrate::sim
