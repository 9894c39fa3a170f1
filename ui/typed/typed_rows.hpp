// What people count and measure in a field, typed in: tray checks and readings of ripeness.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "day/day.hpp"

namespace podrate::ui {

struct TypedTray {
    double count = 0.0;
    double area_m2 = 0.0;
    double thousand_pea_g = 0.0;
    sim::TrayCheck check;
};

struct TypedRows {
    std::vector<TypedTray> trays;
    std::vector<sim::MaturityReading> readings;
    [[nodiscard]] bool empty() const { return trays.empty() && readings.empty(); }
};

// The machine with those of the trays that are its own.
sim::Machine with_trays(const sim::Machine& machine, const TypedRows& rows);

// The day with those readings, in order of time.
sim::Day with_readings(const sim::Day& day, const TypedRows& rows);

// Adds them to tray_checks.csv and maturity.csv of the day's folder: each file whole or not at all. Throws
// sim::RefusedInput. Returns what could be written: its rows are gone from `rows`.
std::vector<std::filesystem::path> write_typed(const std::filesystem::path& folder, TypedRows& rows);

}  // namespace podrate::ui
