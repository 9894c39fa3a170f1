// All machines of a day, and what they add up to.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "fields/field_figures.hpp"
#include "maps/day_map.hpp"
#include "maturity/field_maturity.hpp"
#include "plan/forecast_figures.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

struct DayResult {
    std::vector<MachineResult> machines;  // in the order of Day::machines
    double harvested_t = 0.0;
    double harvested_sd_t = 0.0;
    double area_ha = 0.0;
    double yield_tpha = 0.0;
    std::optional<double> planned_t;  // by the end of the recorded day
    TimeUs first_us = 0;
    TimeUs last_us = 0;
    // Each machine's loss looked back at with the whole gang (analysis/gang_loss); empty where nobody did.
    std::vector<LossSoFar> looked_back;
    long neighbour_pairs = 0;             // that it rests on
    std::vector<FieldFigures> fields;     // fields/field_figures; empty where nobody asked
    std::vector<FieldMaturity> maturity;  // maturity/field_maturity; empty where there is no reading
    std::optional<Forecast> forecast;  // plan/forecast; nothing where nobody asked, or there is no plan ahead
    std::optional<DayMap> map;         // maps/day_map; nothing where nobody asked or nothing has a place

    [[nodiscard]] bool any_usable() const;
    // False where a row, a value, a small file or a whole log had to be left out.
    [[nodiscard]] bool all_used(const Day& day) const;
};

// Cumulative plan at a time, t: linear between its points, held beyond the last, zero before the first.
std::optional<double> planned_t_at(const std::vector<PlanPoint>& plan, double unix_s);

struct ReplayHooks {
    // Makes the extra sink of machine number `index`, or nothing. Called from the thread that replays the
    // machine.
    std::function<std::unique_ptr<ReplaySink>(const Machine& machine, std::size_t index)> sink;
    // Share of all bytes read, 0 to 1. Called from several threads, one at a time.
    std::function<void(double share)> progress;
};

// Machines are replayed side by side; the result does not depend on how many run at once.
DayResult replay_day(const Day& day, const ReplayHooks& hooks);

}  // namespace podrate::sim
