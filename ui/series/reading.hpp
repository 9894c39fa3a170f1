// What columns say at one moment.
#pragma once

#include <optional>
#include <string>

#include "series/day_series.hpp"

namespace podrate::ui {

struct Reading {
    Measure measure = Measure::load_rate;
    float value = 0.0F;  // as the column has it
    Extent band;         // 90 % interval; empty where there is none
    double at_ms = 0.0;  // of the sample: the newest at or before the moment

    // "12.3", or "12.3 (11.0 to 13.6)": for where the unit stands beside.
    [[nodiscard]] std::string figures(const Speech& say, bool with_band) const;
};

// Nothing in a gap of that column, before its first sample and after its last.
std::optional<Reading> reading_at(const MachineSeries& machine, const Column& column, double moment_ms);

}  // namespace podrate::ui
