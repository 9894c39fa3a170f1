// The parameter block, made from parameter_table.def.
#pragma once

#include <cstddef>
#include <cstdint>

#include "podrate/real.hpp"

namespace podrate {

// Raised whenever a parameter is added, dropped or changes its meaning.
inline constexpr std::uint32_t kParameterVersion = 4;

struct Parameters {
#define PODRATE_PARAMETER(name, unit, low, high, value, decimals, source) Real name = Real(value);
#include "podrate/parameter_table.def"
#undef PODRATE_PARAMETER
};

struct ParameterInfo {
    const char* name;
    const char* unit;
    double low;
    double high;
    double value;  // default
    int decimals;
    Real Parameters::*member;
};

inline constexpr ParameterInfo kParameterTable[] = {
#define PODRATE_PARAMETER(name, unit, low, high, value, decimals, source) \
    {#name, unit, low, high, value, decimals, &Parameters::name},
#include "podrate/parameter_table.def"
#undef PODRATE_PARAMETER
};

// Where each default comes from, in the table's order; apart, so that a controller need not hold the words.
inline constexpr const char* kParameterSources[] = {
#define PODRATE_PARAMETER(name, unit, low, high, value, decimals, source) source,
#include "podrate/parameter_table.def"
#undef PODRATE_PARAMETER
};

inline constexpr std::size_t kParameterCount = sizeof kParameterTable / sizeof kParameterTable[0];

// The first parameter that is outside its range (or NaN), or nullptr where all are good.
const ParameterInfo* first_invalid(const Parameters& parameters);

}  // namespace podrate
