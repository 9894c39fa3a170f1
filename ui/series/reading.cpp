#include "series/reading.hpp"

namespace podrate::ui {

std::string Reading::figures(const Speech& say, bool with_band) const {
    const Quantity quantity = facts_of(measure).quantity;
    const std::string alone = figure(say, quantity, static_cast<double>(value));
    if (!with_band || band.empty()) return alone;
    return say(Text::with_range, {alone, ui::figures(say, quantity, static_cast<double>(band.low),
                                                     static_cast<double>(band.high))});
}

std::optional<Reading> reading_at(const MachineSeries& machine, const Column& column, double moment_ms) {
    const std::vector<Millis>& times = machine.times(column);
    const std::optional<std::size_t> index = newest_at(times, moment_ms);
    if (!index) return std::nullopt;
    Reading reading;
    reading.measure = column.measure;
    reading.value = column.value[*index];
    if (column.has_band()) reading.band = column.band_at(*index);
    reading.at_ms = times[*index];
    return reading;
}

}  // namespace podrate::ui
