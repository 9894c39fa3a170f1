// What columns say at one moment.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "series/day_series.hpp"

namespace podrate::ui {

struct Reading {
    Quantity quantity = Quantity::load_rate;
    float value = 0.0F;  // in the quantity's unit
    Extent band;         // 90 % interval; empty where there is none
    double at_ms = 0.0;  // of the sample: the newest at or before the moment

    // "12.3", or "12.3 (11.0 to 13.6)": for where the unit stands beside.
    [[nodiscard]] std::string figures(bool with_band) const;
    // "12.3 t/h", or "12.3 t/h (11.0 to 13.6)".
    [[nodiscard]] std::string words() const;
};

// Nothing in a gap of that column, before its first sample and after its last.
std::optional<Reading> reading_at(const MachineSeries& machine, const Column& column, double moment_ms);

// Of all columns of a machine that say something then, in the order of Quantity.
std::vector<Reading> readings_at(const MachineSeries& machine, double moment_ms);

}  // namespace podrate::ui
