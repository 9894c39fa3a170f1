// A day folder in memory: what day.toml and the small files beside it say. Logs are read by log/.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "day/field.hpp"
#include "day/forecast_keys.hpp"
#include "day/hours_keys.hpp"
#include "day/maturity_keys.hpp"
#include "log/machine_log.hpp"
#include "log/problem.hpp"
#include "podrate/loss/loss_belief.hpp"
#include "podrate/parameters.hpp"

namespace podrate::sim {

struct TrayCheck {
    double unix_s = 0.0;  // when the machine passed that place
    std::string machine;
    double kg_per_ha = 0.0;  // peas left on the ground
    double sd_share = 0.2;   // standard deviation of that, as a share
};

struct Machine {
    std::string id;
    std::filesystem::path log;
    BusChoice bus;  // where the log is of a bus
    Parameters parameters;
    std::optional<double> cost_per_h;   // of machine and driver, in any currency
    std::vector<TrayCheck> trays;       // of Day::tray_checks, in order of time
    std::optional<LossMemory> carried;  // from an earlier day
    TimeUs until_us = 0;                // rows from there on are not read; 0: all are
};

struct PlanPoint {
    double unix_s = 0.0;
    double planned_t = 0.0;  // cumulative
};

struct Day {
    std::string label;
    std::string date;  // YYYY-MM-DD, or empty
    std::string time_zone = "Etc/UTC";
    std::vector<Machine> machines;
    std::vector<Field> fields;
    std::vector<TrayCheck> tray_checks;
    std::vector<MaturityReading> maturity;  // in order of time
    std::vector<WeatherDay> weather;        // in order of days; past and forecast
    std::vector<YieldPoint> yield_table;    // of maturity_yield.csv; empty where it has none
    std::vector<PlanPoint> intake_plan;
    HoursKeys hours;
    ForecastKeys forecast;
    MaturityKeys ripeness;
    double map_cell_m = 10.0;  // side of a map's cell, 5 to 100
    Problems problems;         // of the small files; each log has its own
};

// Reads DIR/day.toml and what stands beside it. Throws RefusedInput where day.toml is missing or wrong.
Day read_day(const std::filesystem::path& folder);

// Makes it the day as it stood at that moment: what logs, trays and readings say from there on is left out.
void end_day_at(Day& day, TimeUs time_us);

// A day made of one log file.
Day day_of_one_log(const std::filesystem::path& log, double width_m);

// kg/ha on the ground from a count: peas/m2 times the mass of 1000 in g, over 100.
double ground_kg_per_ha(double count, double area_m2, double thousand_pea_g);

// Standard deviation of such a figure as a share: peas fall by chance (Poisson), and people miss some.
double tray_sd_share(double count);

}  // namespace podrate::sim
