#include "text/quantity.hpp"

#include <cmath>
#include <cstddef>

#include "log/number.hpp"
#include "log/units.hpp"

namespace podrate::ui {
namespace {

// The international foot and the avoirdupois pound, exact; acre and mile are those of that foot (NIST
// Handbook 44, appendix C).
constexpr double kFootM = 0.3048;
constexpr double kMileM = 5280.0 * kFootM;
constexpr double kAcreM2 = 43560.0 * kFootM * kFootM;
constexpr double kPoundKg = 0.45359237;
constexpr double kShortTonKg = 2000.0 * kPoundKg;

struct UnitPair {
    Unit of[2];  // metric, US
};

// By the order of Quantity. What a pound is too fine for is told in tens of them.
constexpr UnitPair kUnitTable[] = {
    {{{sim::kTphPerKgps, 1, 0, Text::unit_tph}, {3600.0 / kShortTonKg, 1, 0, Text::unit_tonph}}},
    {{{sim::kTphaPerKgpm2, 1, 0, Text::unit_tpha}, {kAcreM2 / kShortTonKg, 2, 0, Text::unit_tonpacre}}},
    {{{sim::kKgphaPerKgpm2, 0, 10, Text::unit_kgpha}, {kAcreM2 / kPoundKg, 0, 10, Text::unit_lbpacre}}},
    {{{sim::kKmphPerMps, 1, 0, Text::unit_kmph}, {3600.0 / kMileM, 1, 0, Text::unit_mph}}},
    {{{1e-4, 2, 0, Text::unit_ha}, {1.0 / kAcreM2, 2, 0, Text::unit_acre}}},
    {{{1e-3, 1, 0, Text::unit_t}, {1.0 / kShortTonKg, 1, 0, Text::unit_ton}}},
    {{{1e-3, 2, 0, Text::unit_t}, {1.0 / kShortTonKg, 2, 0, Text::unit_ton}}},
    {{{1e-3, 2, 0, Text::unit_t}, {1.0 / kPoundKg, 0, 10, Text::unit_lb}}},
    {{{1.0, 0, 0, Text::unit_kg}, {1.0 / kPoundKg, 0, 0, Text::unit_lb}}},
    {{{1e-3, 1, 0, Text::unit_t}, {1.0 / kPoundKg, 0, 10, Text::unit_lb}}},
    {{{1.0, 0, 10, Text::unit_m}, {1.0 / kFootM, 0, 50, Text::unit_ft}}},
    {{{100.0, 1, 0, Text::unit_percent}, {100.0, 1, 0, Text::unit_percent}}},
    {{{1.0, 0, 0, Text::unit_kg}, {1.0 / kPoundKg, 0, 0, Text::unit_lb}}},
    {{{1.0, 1, 0, Text::unit_degree}, {1.0, 1, 0, Text::unit_degree}}},
    {{{1.0, 0, 0, Text::unit_per_min}, {1.0, 0, 0, Text::unit_per_min}}},
    {{{1.0, 1, 0, Text::unit_hits}, {1.0, 1, 0, Text::unit_hits}}},
};
static_assert(sizeof kUnitTable / sizeof kUnitTable[0] == kQuantities);

double in_steps(const Unit& unit, double si) {
    const double value = unit.per_si * si;
    return unit.step > 0.0 ? unit.step * std::round(value / unit.step) : value;
}

}  // namespace

const Unit& unit_of(Quantity quantity, Units units) {
    return kUnitTable[static_cast<std::size_t>(quantity)].of[static_cast<std::size_t>(units)];
}

std::string figure(const Speech& say, Quantity quantity, double si) {
    const Unit& unit = unit_of(quantity, say.units);
    return say.number(in_steps(unit, si), unit.decimals);
}

std::string figures(const Speech& say, Quantity quantity, double low_si, double high_si) {
    return say.range(figure(say, quantity, low_si), figure(say, quantity, high_si));
}

std::string unit_name(const Speech& say, Quantity quantity) {
    return say(unit_of(quantity, say.units).name);
}

std::string with_unit(const Speech& say, Quantity quantity, double si) {
    return figure(say, quantity, si) + ' ' + unit_name(say, quantity);
}

std::string change_of(const Speech& say, Quantity quantity, double si) {
    const std::string shown = with_unit(say, quantity, std::abs(si));
    const std::string nothing = with_unit(say, quantity, 0.0);
    if (shown == nothing)
        return "\xC2\xB1"
               "0 " +
               unit_name(say, quantity);
    return (si > 0.0 ? "+" : "\xE2\x88\x92") + shown;
}

}  // namespace podrate::ui
