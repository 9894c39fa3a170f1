#include "series/load_series.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace podrate::ui {
namespace {

void leave_empty(MachineSeries& machine, std::string why) {
    MachineSeries bare;
    bare.id = std::move(machine.id);
    bare.refusal = std::move(why);
    machine = std::move(bare);
}

void shift(MachineSeries& machine, Millis by_ms) {
    const auto all = [by_ms](std::vector<Millis>& times) {
        for (Millis& time : times) time += by_ms;
    };
    all(machine.kept_ms);
    for (Column& column : machine.columns) all(column.own_ms);
    for (StepColumn& step : machine.steps) all(step.at_ms);
}

// Each machine's times count from its own first row up to here.
void share_origin(DaySeries& series) {
    for (const MachineSeries& machine : series.machines) {
        if (!machine.refusal.empty()) continue;
        if (series.origin_us == 0 || machine.origin_us < series.origin_us)
            series.origin_us = machine.origin_us;
    }
    for (MachineSeries& machine : series.machines) {
        if (!machine.refusal.empty()) continue;
        const TimeUs by_ms = (machine.origin_us - series.origin_us) / 1000;
        if (by_ms + machine.kept_ms.back() > std::numeric_limits<Millis>::max()) {
            leave_empty(machine, "lies more than 24 days after the day's first row");
            continue;
        }
        shift(machine, static_cast<Millis>(by_ms));
        machine.origin_us = series.origin_us;
        series.last_ms = std::max(series.last_ms, machine.kept_ms.back());
    }
}

}  // namespace

void begin_series(const sim::Day& day, DaySeries& series) {
    series.label = day.label;
    series.time_zone = day.time_zone;
    series.machines.resize(day.machines.size());
}

void end_series(const sim::DayResult& result, DaySeries& series) {
    for (std::size_t i = 0; i < result.machines.size(); ++i) {
        series.machines[i].id = result.machines[i].id;
        series.machines[i].alarms = result.machines[i].alarms;
        if (!result.machines[i].usable) leave_empty(series.machines[i], result.machines[i].refusal);
    }
    share_origin(series);
}

}  // namespace podrate::ui
