// A season by days, by fields, by machines, and in all.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "podrate/loss/loss_outlook.hpp"
#include "season/day_figures.hpp"

namespace podrate::sim {

// Of a day, a field, a machine or all of them. Doubt of the loss is added up, not averaged away: machines,
// fields and days share it.
struct SeasonSum {
    std::string name;
    int days = 0;
    int machines = 0;
    double harvested_kg = 0.0;
    double harvested_sd_kg = 0.0;  // a machine's days share its cells' calibration; machines do not
    double swept_m2 = 0.0;         // width times distance with the reel on
    double covered_m2 = 0.0;       // ground counted once a day; fields alone have it
    double lost_kg = 0.0;
    double lost_sd_kg = 0.0;
    double harvesting_s = 0.0;
    std::uint64_t loads = 0;
    std::optional<double> planned_t;  // of days that have a plan

    // Of collected + lost; none where nothing is known to be lost.
    [[nodiscard]] std::optional<Share> loss() const;
};

struct SeasonSums {
    std::vector<SeasonSum> days;      // in the order of the season's; zeros where one does not count
    std::vector<SeasonSum> fields;    // by name, then those without a boundary as one, then elsewhere
    std::vector<SeasonSum> machines;  // by id
    SeasonSum total;
};

SeasonSums season_sums(const std::vector<DayFigures>& days);

// Of one machine's share of a field.
std::optional<Share> loss_of(const SeasonShare& share);

}  // namespace podrate::sim
