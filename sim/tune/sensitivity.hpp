// How much each swept parameter moves the figures.
#pragma once

#include <optional>

#include "tune/tuning_figures.hpp"

namespace podrate::sim {

// From one setting to another that differs by this parameter alone.
struct LocalStep {
    double value = 0.0;     // there
    AlarmFigures change{};  // there less here
};

struct ParameterEffect {
    std::size_t parameter = 0;      // place in TuneTable::parameters
    std::optional<LocalStep> down;  // the next lower value swept, all others as in the setting
    std::optional<LocalStep> up;
    // Over the whole grid, where the setting as it was counts if it is a point of it that no other is: mean
    // of the figures at the least and at the greatest value swept, and how far apart the means at all its
    // values lie.
    double least = 0.0;
    double greatest = 0.0;
    AlarmFigures at_least{};
    AlarmFigures at_greatest{};
    AlarmFigures spread{};
};

// `figures`: by setting; `around`: the setting that steps begin from. One effect for each swept parameter.
// Figures nobody knows are left out of the means.
std::vector<ParameterEffect> parameter_effects(const TuneTable& table,
                                               const std::vector<AlarmFigures>& figures, std::size_t around);

}  // namespace podrate::sim
