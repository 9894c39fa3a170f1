// All columns of a replayed day in memory.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "podrate/sample.hpp"
#include "replay/alarm_log.hpp"
#include "series/column.hpp"

namespace podrate::ui {

struct MachineSeries {
    std::string id;
    std::string refusal;          // why there is nothing, or empty
    TimeUs origin_us = 0;         // that its Millis count from; of all machines the same once loaded
    std::vector<Millis> kept_ms;  // of the rows whose estimates are kept: all, or on a bus the weights
    std::vector<Column> columns;  // those that hold anything, in the order of Measure
    std::array<StepColumn, kStepMeasures> steps;
    std::vector<sim::AlarmEvent> alarms;  // in order of their beginning
    std::uint64_t rows_left_out = 0;      // more than 24 days after the log's first

    // nullptr where the machine has none of it.
    [[nodiscard]] const Column* find(Measure measure) const;
    [[nodiscard]] const std::vector<Millis>& times(const Column& column) const {
        return column.times(kept_ms);
    }
    [[nodiscard]] const StepColumn& step(StepMeasure measure) const {
        return steps[static_cast<std::size_t>(measure)];
    }
    // What held at a moment; nothing in a gap and outside the log.
    [[nodiscard]] std::optional<std::uint16_t> step_at(StepMeasure measure, double at_ms) const;
    [[nodiscard]] std::size_t bytes() const;
};

struct DaySeries {
    std::string label;
    std::string time_zone;
    TimeUs origin_us = 0;  // that all Millis count from
    Millis last_ms = 0;
    std::vector<MachineSeries> machines;  // in the order of sim::Day::machines

    [[nodiscard]] TimeUs time_us(double at_ms) const {
        return origin_us + static_cast<TimeUs>(at_ms * 1000.0);
    }
    [[nodiscard]] std::size_t bytes() const;
};

}  // namespace podrate::ui
