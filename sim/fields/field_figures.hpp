// What each field of a day gave, all machines together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "podrate/loss/loss_outlook.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

struct FieldFigures {
    std::string name;
    bool bounded = false;     // has a boundary
    bool elsewhere = false;   // no field: what has no place or was cut off all fields
    double field_m2 = 0.0;    // within the boundary, fields nested in it left out
    double covered_m2 = 0.0;  // ground cut, counted once; within the boundary where there is one
    double left_m2 = 0.0;     // the boundary's less that
    double beyond_m2 = 0.0;   // cut beside the boundary
    double swept_m2 = 0.0;    // width times distance of all machines: overlap counts again
    double harvested_kg = 0.0;
    std::optional<Share> loss;        // of collected + lost
    double in_field_h = 0.0;          // hours of machines that cut there; travel not counted
    double work_rate_ha_per_h = 0.0;  // ground covered for each of those hours
    double capacity_ha_per_h =
        0.0;                     // speed x width x efficiency (analysis/field_capacity): overlap counts again
    double efficiency = 0.0;     // share of those hours spent harvesting
    std::optional<double> cost;  // by Machine::cost_per_h; none where a machine that cut there has none
    int machines = 0;            // that cut there
    double mean_cut_unix_s = 0.0;  // by the peas; 0 where none came
    TimeUs last_cut_us = 0;        // 0: nothing was cut there

    // t/ha on ground covered; 0 where none is.
    [[nodiscard]] double yield_tpha() const { return tonnes_per_hectare(harvested_kg, covered_m2); }
    // Peas lost beside the collected ones, at that share of loss, kg per ha of ground covered.
    [[nodiscard]] double lost_kg_per_ha(Real share) const;
};

// Bounded fields in their order, worked or not, then those found without a boundary, then what lies
// elsewhere, where there is any. Harvested adds up to the machines' totals. Empty where there is neither a
// boundary nor a place.
std::vector<FieldFigures> field_figures(const Day& day, const std::vector<MachineResult>& machines);

}  // namespace podrate::sim
