// Figures in the units people use: the one place that converts and rounds.
#pragma once

#include <string>

#include "text/text.hpp"

namespace podrate::ui {

// What a figure tells, given in SI.
enum class Quantity {
    rate,         // kg/s
    yield,        // kg/m2
    ground,       // kg/m2 left on the ground
    speed,        // m/s
    area,         // m2
    total,        // kg of the day
    total_doubt,  // kg
    load,         // kg in the hopper or tipped
    load_doubt,   // kg
    capacity,     // kg the hopper holds
    distance,     // m
    share,        // of 1
    weight,       // kg as a scale tells them
    angle,        // degrees
    turning,      // turns a minute
    hits,         // peas a second that a loss sensor counts
};
inline constexpr int kQuantities = 16;

struct Unit {
    double per_si;  // units in one of SI
    int decimals;
    double step;  // rounded to whole steps first; 0: to the decimals alone
    Text name;
};

const Unit& unit_of(Quantity quantity, Units units);

// "5.4", "4.9 to 5.9", "5.4 t/h", "+0.6 t/h".
std::string figure(const Speech& say, Quantity quantity, double si);
std::string figures(const Speech& say, Quantity quantity, double low_si, double high_si);
std::string with_unit(const Speech& say, Quantity quantity, double si);
std::string change_of(const Speech& say, Quantity quantity, double si);
std::string unit_name(const Speech& say, Quantity quantity);

}  // namespace podrate::ui
