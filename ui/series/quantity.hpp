// What a day's columns hold: one table of names, units and decimals.
#pragma once

#include <cstdint>

namespace podrate::ui {

enum class Quantity : std::uint8_t {
    // Estimates, at each row that is kept.
    load_rate,
    yield,
    loss,
    hopper,
    level,
    harvested,
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

inline constexpr int kQuantities = static_cast<int>(Quantity::hit_rate) + 1;

struct QuantityFacts {
    const char* words;  // "Load rate"
    const char* unit;   // "t/h": what columns hold and people read
    int decimals;       // worth showing
    bool from_zero;     // its axis begins at zero
};

const QuantityFacts& facts_of(Quantity quantity);

// What changes now and then and holds in between.
enum class StepQuantity : std::uint8_t {
    state,   // WorkState
    alarms,  // bits as in Estimate::alarms
    faults,  // bits as in Estimate::faults
    reel,    // 1: it turns and crop is taken in
};

inline constexpr int kStepQuantities = static_cast<int>(StepQuantity::reel) + 1;

}  // namespace podrate::ui
