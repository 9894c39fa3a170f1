// Many measurements of one quantity, each with its own doubt, of machines on days: how far machines differ,
// how far their days do, and what is left for a machine or a day not seen yet.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace podrate::sim {

struct Measured {
    std::size_t machine = 0;  // 0, 1, ...
    double value = 0.0;
    double variance = 0.0;  // of the measurement alone, above zero
};

struct MachineEffect {
    double offset = 0.0;    // of the machine from the mean
    double sd = 0.0;        // of that, the mean's doubt taken in
    double level_sd = 0.0;  // of mean and offset together
};

struct NestedEffects {
    double mean = 0.0;
    double mean_sd = 0.0;
    double machine_sd = 0.0;  // between machines
    double day_sd = 0.0;      // between days of a machine
    std::vector<MachineEffect> machines;
    double log_likelihood = 0.0;  // restricted, but for constants

    // Of a machine not seen yet, on some day: both spreads and the mean's doubt.
    [[nodiscard]] double new_sd() const;
};

// How a spread is told. Of few days or machines the likeliest one is often 0, as if all were alike: then what
// is thought of the next is far too sure.
enum class SpreadFit {
    restricted,  // by restricted maximum likelihood
    // ... with ln(spread) - spread added to it for each, a gamma density of shape 2 and scale 1: at most
    // about one standard error higher, and never 0 (Chung, Rabe-Hesketh, Dorie, Gelman & Liu, Psychometrika
    // 78: 685-709, 2013). The scale is for logarithms, of which machines and days seldom differ by more than
    // 1 (our own judgement): with two of them it alone keeps the spread from growing without end.
    above_zero,
};

// value = mean + machine + day + error, all normal; the rest by best linear predictions (Henderson; Robinson
// 1991). Nothing of less than two measurements. With one machine, or with one day for each, both spreads
// can't be told apart: then all of it is between days, or between machines.
std::optional<NestedEffects> fit_nested(const std::vector<Measured>& all, SpreadFit how);

// How far each lies from what all others tell of its machine, in standard deviations of that prediction; 0
// where the others are too few.
std::vector<double> left_out_residuals(const std::vector<Measured>& all, SpreadFit how);

}  // namespace podrate::sim
