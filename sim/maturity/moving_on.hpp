// "Not full enough: move on?" What waiting brings and what moving costs, in tonnes. The decision stays with
// people.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "maturity/field_maturity.hpp"

namespace podrate::sim {

// A change of the peas, t: mean and half of its 90 % range.
struct ChangeT {
    double mean = 0.0;
    double reach90 = 0.0;
};

// Chances, 0 to 1, in the middle of a field's cutting.
struct WindowChance {
    double in = 0.0;
    double past = 0.0;
};

// What is left of a field.
struct FieldLeft {
    const FieldMaturity* maturity = nullptr;
    double left_ha = 0.0;
    double common_tpha = 0.0;  // its yield at the common reading
    bool own_yield = false;    // false: taken from the fields cut that day
    double work_h = 0.0;       // that the gang needs for it, by the day's work rate in the fields
    Believed in_a_day;         // the reading 24 h on
    double in_window_in_a_day = 0.0;
    ChangeT by_a_day;  // change of the peas left by 24 h of standing
};

// Finishing `here` first and then going to `there`, against going now and coming back.
struct MoveChoice {
    std::size_t here = 0;  // of MovingOn::fields
    std::size_t there = 0;
    ChangeT here_t;            // change of what is left here for being cut later
    ChangeT there_t;           // ... there, for being cut earlier
    double later_h = 0.0;      // by which what is left here is cut later
    double earlier_h = 0.0;    // ... there earlier
    double move_cost_t = 0.0;  // harvest forgone by one move more, at the gang's pace
    WindowChance here_if_stayed;
    WindowChance here_if_moved;
    WindowChance there_if_stayed;
    WindowChance there_if_moved;
};

struct MovingOn {
    std::vector<FieldLeft> fields;    // with readings and ground left
    std::vector<MoveChoice> choices;  // from the field cut last to each other
    double pace_tph = 0.0;            // of the gang in the fields, turns, tips and stops included
};

// Nothing where no ground is known to be left in a field with readings, or none was cut that day.
std::optional<MovingOn> moving_on(const Day& day, const std::vector<FieldFigures>& fields,
                                  const std::vector<FieldMaturity>& maturity);

}  // namespace podrate::sim
