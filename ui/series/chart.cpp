#include "series/chart.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::ui {
namespace {

constexpr float kWavers = 0.1F;      // so little below zero takes no room of its own
constexpr double kLeastSteps = 4.0;  // of the last decimal worth showing

}  // namespace

Chart bare_chart(Measure measure, const Speech& say) {
    const MeasureFacts& facts = facts_of(measure);
    Chart chart;
    chart.measure = measure;
    const std::string name = say(facts.name);
    const std::string unit = unit_name(say, facts.quantity);
    chart.title = say(Text::chart_title, {name, unit});
    chart.banded_title = say(Text::chart_banded, {name, unit});
    chart.quantity = facts.quantity;
    chart.say = say;
    chart.from_zero = facts.from_zero;
    return chart;
}

Chart chart_of(const DaySeries& day, Measure measure, const Speech& say) {
    Chart chart = bare_chart(measure, say);
    for (const MachineSeries& machine : day.machines) {
        const Column* column = machine.find(measure);
        if (column == nullptr || chart.lines.size() == kMostLines) continue;
        chart.lines.push_back({&machine, column, machine.id});
    }
    return chart;
}

void make_picture(const Chart& chart, const TimeWindow& window, int width_px, int most_ticks,
                  ChartPicture& picture) {
    picture.traces.resize(chart.lines.size());
    picture.at_cursor.assign(chart.lines.size(), std::nullopt);
    Heights all;
    for (std::size_t i = 0; i < chart.lines.size(); ++i) {
        const ChartLine& line = chart.lines[i];
        trace(*line.machine, *line.column, window.shown(), width_px, picture.traces[i]);
        const Heights own = heights(*line.machine, *line.column, window.shown());
        all.line.take(own.line);
        all.band.take(own.band);
        if (window.cursor_ms())
            picture.at_cursor[i] = reading_at(*line.machine, *line.column, *window.cursor_ms());
    }
    Extent values = all.line;
    if (!values.empty()) {
        const float low = chart.from_zero ? std::min(values.low, 0.0F) : values.low;
        const float span = values.high - low;
        values.low = std::max(all.band.low, std::min(values.low, low - (chart.from_zero ? 0.0F : span)));
        values.high = std::min(all.band.high, values.high + span);
    }
    if (chart.from_zero && values.low < 0.0F && -values.low < kWavers * values.high) values.low = 0.0F;
    const Unit& unit = unit_of(chart.quantity, chart.say.units);
    if (!values.empty()) {
        values.low *= static_cast<float>(unit.per_si);
        values.high *= static_cast<float>(unit.per_si);
    }
    const double least = kLeastSteps * std::max(std::pow(10.0, -unit.decimals), unit.step);
    picture.axis = value_axis(values, chart.from_zero, least, most_ticks);
}

}  // namespace podrate::ui
