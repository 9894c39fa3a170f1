// What the day's readings say of each field: how ripe it is, when it enters and leaves its window, and what
// it yielded at a common reading.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "fields/field_figures.hpp"
#include "maturity/ripening.hpp"

namespace podrate::sim {

// Readings at which a field is wanted.
struct ReadingWindow {
    double target = 0.0;
    double low = 0.0;
    double high = 0.0;
};

// Yield of what was cut, as it would be at the common reading.
struct AdjustedYield {
    Believed reading;  // when it was cut, in the mean of the peas
    Believed yield_tpha;
};

struct FieldMaturity {
    std::string field;
    Ripening ripening;
    std::optional<ReadingWindow> window;  // where a target is told
    std::optional<double> heat_units;     // from the sowing to the end of the day before, where both are told
    double now_s = 0.0;                   // the logs' end, or the last reading if that is later
    Believed now;
    double in_window_now = 0.0;      // chance, 0 to 1
    std::optional<Believed> enters;  // unix seconds, as Ripening::when() tells them
    std::optional<Believed> leaves;
    std::optional<AdjustedYield> adjusted;  // where it was cut and its ground is known

    // Chance that it is within its window; 0 without one.
    [[nodiscard]] double in_window(double unix_s) const;
};

// How far ahead of the logs' end it is looked.
inline constexpr double kOutlookS = 14.0 * 86400.0;

// Readings of another season, or of a clock gone wrong, say nothing of the day: how far from the logs' end
// they may be.
inline constexpr double kReadingsBackS = 60.0 * 86400.0;
inline constexpr double kReadingsAheadS = 3.0 * 86400.0;

// Fields with readings, those with a boundary first and in their order. `last_us`: the end of the logs.
std::vector<FieldMaturity> field_maturity(const Day& day, const std::vector<FieldFigures>& fields,
                                          TimeUs last_us);

// Of the field of that name; nothing where it has no reading, or was not cut.
std::optional<AdjustedYield> adjusted_yield_of(const std::string& field,
                                               const std::vector<FieldMaturity>& maturity);

}  // namespace podrate::sim
