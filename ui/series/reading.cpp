#include "series/reading.hpp"

#include "log/number.hpp"

namespace podrate::ui {

std::string Reading::figures(bool with_band) const {
    const int decimals = facts_of(quantity).decimals;
    const auto number = [decimals](float figure) {
        return sim::fixed(static_cast<double>(figure), decimals);
    };
    if (!with_band || band.empty()) return number(value);
    return number(value) + " (" + number(band.low) + " to " + number(band.high) + ')';
}

std::string Reading::words() const {
    const std::string unit = std::string(" ") + facts_of(quantity).unit;
    std::string words = figures(false) + unit;
    if (!band.empty()) words += figures(true).substr(figures(false).size());
    return words;
}

std::optional<Reading> reading_at(const MachineSeries& machine, const Column& column, double moment_ms) {
    const std::vector<Millis>& times = machine.times(column);
    const std::optional<std::size_t> index = newest_at(times, moment_ms);
    if (!index) return std::nullopt;
    Reading reading;
    reading.quantity = column.quantity;
    reading.value = column.value[*index];
    if (column.has_band()) reading.band = column.band_at(*index);
    reading.at_ms = times[*index];
    return reading;
}

std::vector<Reading> readings_at(const MachineSeries& machine, double moment_ms) {
    std::vector<Reading> all;
    for (const Column& column : machine.columns) {
        if (const auto reading = reading_at(machine, column, moment_ms)) all.push_back(*reading);
    }
    return all;
}

}  // namespace podrate::ui
