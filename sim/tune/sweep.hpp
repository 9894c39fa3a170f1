// Which parameters are swept, over which values.
#pragma once

#include <string>
#include <vector>

#include "podrate/parameters.hpp"
#include "tune/tally.hpp"

namespace podrate::sim {

struct Swept {
    const ParameterInfo* parameter = nullptr;
    std::vector<double> values;  // in its unit, each in its range
};

inline constexpr std::size_t kMostSettings = 10000;  // of a grid: beyond that nobody reads the table

// "loss_high_share=0.08:0.2:7" (from, to, how many) or "loss_high_on_s=0,6,12". Throws RefusedInput.
Swept parse_swept(const std::string& text);

// Throws RefusedInput where a parameter is swept twice.
std::vector<Swept> parse_sweep(const std::vector<std::string>& texts);

// Every combination; the last parameter changes fastest. Throws RefusedInput beyond kMostSettings.
std::vector<TuneSetting> grid_of(const std::vector<Swept>& sweep);

// `own` with the values of a setting in their places.
Parameters with_setting(const Parameters& own, const std::vector<Swept>& sweep, const TuneSetting& setting);

// Of the setting, what needs a replay of its own: text that is the same where one replay serves both.
std::string estimator_key(const std::vector<Swept>& sweep, const TuneSetting& setting);

// A value as a person would write it, to the digits that a parameter has.
std::string value_text(double value);
// The shortest decimal that a machine holds as that value: 0.8, not 0.800000012. Values of a setting are
// such, so that what is alike for a machine compares equal.
double decimal_of(Real value);
// Another text for any other value.
std::string exact_text(double value);

}  // namespace podrate::sim
