#include "live/live_figures.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "day/local_time.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "replay/alarm_log.hpp"

namespace podrate::sim {
namespace {

using Json = nlohmann::ordered_json;

struct Ranged {
    double value;
    double low;
    double high;
};

Ranged within(Real value, Real sd, double unit) {
    const double half = kReach90 * static_cast<double>(sd);
    const auto middle = static_cast<double>(value);
    return {unit * std::max(0.0, middle), unit * std::max(0.0, middle - half), unit * (middle + half)};
}

Ranged rate_tph(const Estimate& e) {
    return within(e.flow_kgps, e.flow_sd_kgps, kTphPerKgps);
}

Ranged loss_pct(const Estimate& e) {
    return {100.0 * static_cast<double>(e.loss_share), 100.0 * static_cast<double>(e.loss_low),
            100.0 * static_cast<double>(e.loss_high)};
}

// Without speed no area is known, and before the first cut there is no crop to speak of.
bool yield_known(const Estimate& e) {
    return e.area_m2 > Real(0) && (e.faults & kSpeedMissing) == 0;
}

std::string range_text(const Ranged& range) {
    return " (" + fixed(range.low, 1) + " to " + fixed(range.high, 1) + ")";
}

std::string padded(std::string text, std::size_t width, bool left) {
    const std::size_t missing = width > text.size() ? width - text.size() : 0;
    return left ? std::string(missing, ' ') + text : text + std::string(missing, ' ');
}

// Rounded through its decimal text, so that "4.8" is shown and not "4.7999999999999998".
Json rounded(double value, int decimals) {
    return parse_number(fixed(value, decimals)).value;
}

void add_figures(Json& json, const Estimate& e) {
    const Ranged rate = rate_tph(e);
    const Ranged loss = loss_pct(e);
    json["state"] = name_of(e.state);
    json["load_rate_tph"] = rounded(rate.value, 3);
    json["load_rate_low_tph"] = rounded(rate.low, 3);
    json["load_rate_high_tph"] = rounded(rate.high, 3);
    if (yield_known(e)) json["yield_tpha"] = rounded(kTphaPerKgpm2 * static_cast<double>(e.yield_kgpm2), 3);
    json["loss_pct"] = rounded(loss.value, 2);
    json["loss_low_pct"] = rounded(loss.low, 2);
    json["loss_high_pct"] = rounded(loss.high, 2);
    json["hopper_kg"] = rounded(static_cast<double>(e.mass_kg), 1);
    json["hopper_pct"] = rounded(100.0 * static_cast<double>(e.level_share), 1);
    json["harvested_t"] = rounded(static_cast<double>(e.harvested_kg) / 1e3, 4);
    json["area_ha"] = rounded(static_cast<double>(e.area_m2) / 1e4, 4);
    json["alarms"] = alarm_names(e.alarms, e.faults);
}

std::string quiet_text(const LiveFigures& figures, const char* what) {
    return std::string("no ") + what + " for " + fixed(figures.quiet_s, 0) + " s";
}

const char* name_of(LiveInput input) {
    switch (input) {
        case LiveInput::good: return "good";
        case LiveInput::no_weight: return "no_weight";
        case LiveInput::silent: return "silent";
    }
    return "";
}

const char* name_of(LiveBus bus) {
    switch (bus) {
        case LiveBus::none: return "none";
        case LiveBus::good: return "good";
        case LiveBus::silent: return "silent";
        case LiveBus::flooded: return "flooded";
        case LiveBus::passive: return "passive";
        case LiveBus::off: return "off";
    }
    return "";
}

// What is amiss with the bus, and the mend.
std::string bus_text(LiveBus bus) {
    switch (bus) {
        case LiveBus::none:
        case LiveBus::good: return "";
        case LiveBus::silent: return "   bus silent";
        case LiveBus::flooded: return "   bus flooded: more than 2000 frames a second";
        case LiveBus::passive: return "   bus full of errors: check bit rate, plugs and its two resistors";
        case LiveBus::off: return "   off the bus after too many errors: check bit rate, plugs and wires";
    }
    return "";
}

// While nothing that can be used comes, whether anything does is worth knowing.
std::string silence_text(LiveBus bus) {
    if (bus == LiveBus::silent) return "";
    return bus == LiveBus::good ? "   frames come, but none gives a value" : bus_text(bus);
}

}  // namespace

std::string live_line(const LiveFigures& figures, const std::string& time_zone) {
    const LocalTime clock = local_time(figures.time_us, time_zone);
    const std::string time = clock.hh_mm() + ":" + clock.ss() + " ";
    if (figures.input == LiveInput::silent)
        return time + quiet_text(figures, "input that can be used") + silence_text(figures.bus) + "\n";
    if (figures.input == LiveInput::no_weight)
        return time + quiet_text(figures, "weight") + bus_text(figures.bus) + "\n";
    const Estimate& e = figures.estimate;
    const Ranged rate = rate_tph(e);
    const Ranged loss = loss_pct(e);
    const std::string yield =
        yield_known(e) ? fixed(kTphaPerKgpm2 * static_cast<double>(e.yield_kgpm2), 1) : std::string("-");
    std::string line = time + padded(name_of(e.state), 16, false);
    line += padded(fixed(rate.value, 1), 5, true) + " t/h" + padded(range_text(rate), 15, false);
    line += padded(yield, 5, true) + " t/ha   lost";
    line += padded(fixed(loss.value, 1), 5, true) + " %" + padded(range_text(loss), 15, false);
    line += "hopper" + padded(fixed(static_cast<double>(e.mass_kg), 0), 5, true) + " kg, " +
            fixed(100.0 * static_cast<double>(e.level_share), 0) + " %";
    const std::string alarms = alarm_names(e.alarms, e.faults);
    if (!alarms.empty()) line += "   " + alarms;
    return line + bus_text(figures.bus) + "\n";
}

std::string live_json(const LiveFigures& figures) {
    Json json = {{"unix_s", rounded(static_cast<double>(figures.time_us) / 1e6, 3)},
                 {"input", name_of(figures.input)},
                 {"bus", name_of(figures.bus)},
                 {"quiet_s", rounded(figures.quiet_s, 1)}};
    for (const char* key :
         {"state", "load_rate_tph", "load_rate_low_tph", "load_rate_high_tph", "yield_tpha", "loss_pct",
          "loss_low_pct", "loss_high_pct", "hopper_kg", "hopper_pct", "harvested_t", "area_ha", "alarms"}) {
        json[key] = nullptr;
    }
    if (figures.input == LiveInput::good) add_figures(json, figures.estimate);
    return json.dump() + "\n";
}

}  // namespace podrate::sim
