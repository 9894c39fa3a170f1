// One of each fault, as a bad day brings them; sizes are common practice, no source.
#pragma once

namespace podrate::test {

struct FaultCase {
    const char* kind;
    double at_s;
    double for_s;
    double size;
    int cell = 0;
    bool apart = false;  // the log gives four cells, each for itself
};

inline constexpr FaultCase kFaultCases[] = {
    {"weight_stuck", 1500, 200, 0},    {"weight_stuck", 1500, 600, 0, 2, true},
    {"weight_open", 1500, 120, 4000},  {"weight_open", 1500, 600, 1500, 3, true},
    {"weight_drift", 0, 5760, 5},      {"weight_drift", 0, 5760, 5, 1, true},
    {"weight_clipped", 0, 5760, 1500}, {"weight_clipped", 0, 5760, 380, 4, true},
    {"weight_dropout", 1500, 20, 0},   {"weight_dropout", 1500, 200, 0},
    {"speed_stuck", 1500, 600, 0},     {"speed_zero", 1500, 900, 0},
    {"tilt_dead", 600, 3000, 0},       {"clock_jump", 2000, 0, 30},
    {"clock_jump", 2000, 0, -20},      {"rows_dropped", 1500, 40, 0},
    {"rows_dropped", 1500, 400, 0},    {"rows_doubled", 1500, 600, 0},
    {"rows_swapped", 1500, 300, 0},    {"log_cut", 4000, 0, 0},
    {"tip_in_part", 600, 0, 500},      {"taken_by_hand", 1500, 0, 60},
    {"hopper_leak", 1500, 600, 0.05},  {"drum_blocked", 1500, 60, 0},
};

}  // namespace podrate::test
