// What a day's columns hold: one table of names and of what they tell.
#pragma once

#include <cstdint>

#include "text/quantity.hpp"

namespace podrate::ui {

enum class Measure : std::uint8_t {
    // Estimates, at each row that is kept.
    load_rate,
    yield,
    loss,
    drum_loss,     // the part of it lost in the drum
    picking_loss,  // and what the reel leaves
    right_speed,   // as advised, where it is
    hopper,
    level,
    harvested,
    area,
    // Channels, at the times at which the log has them.
    speed,
    weight,
    cell_1,
    cell_2,
    cell_3,
    cell_4,
    pitch,
    roll,
    heading,
    drum_speed,
    hit_rate,
};

inline constexpr int kMeasures = static_cast<int>(Measure::hit_rate) + 1;

struct MeasureFacts {
    Text name;
    Quantity quantity;  // columns hold it in SI; angles in degrees, the drum's speed in turns a minute
    bool from_zero;     // its axis begins at zero
};

const MeasureFacts& facts_of(Measure measure);

// What changes now and then and holds in between.
enum class StepMeasure : std::uint8_t {
    state,   // WorkState
    alarms,  // bits as in Estimate::alarms
    faults,  // bits as in Estimate::faults
    reel,    // 1: it turns and crop is taken in
};

inline constexpr int kStepMeasures = static_cast<int>(StepMeasure::reel) + 1;

}  // namespace podrate::ui
