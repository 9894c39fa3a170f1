// Faults on demand: what can go wrong with sensors, logger and machine, when and how badly.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace podrate::sim {

enum class FaultKind {
    weight_stuck,    // repeats its last reading
    weight_drift,    // runs away by `size` kg/h
    weight_clipped,  // shows no more than `size` kg
    weight_dropout,  // shows 0
    weight_open,     // a broken wire: runs to `size` kg, the end of its scale
    speed_stuck,     // repeats its last reading
    speed_zero,      // shows 0
    tilt_dead,       // shows 0
    clock_jump,      // from at_s on the logger's clock is off by `size` s
    rows_dropped,
    rows_doubled,
    rows_swapped,   // each second row before the one it follows
    log_cut,        // the log ends there, in the middle of a row
    tip_in_part,    // the next tip leaves `size` kg behind
    taken_by_hand,  // `size` kg are taken out at once
    hopper_leak,    // loses `size` kg/s
    drum_blocked,   // nothing comes out, until it clears in a surge
};

inline constexpr int kFaultKinds = 17;

// "weight_stuck", ...
const char* name_of(FaultKind kind);
// The kind of that name; nothing where there is none.
std::optional<FaultKind> fault_named(std::string_view name);

// Which of its keys a kind of fault uses, and the range of its size.
struct FaultNeeds {
    bool lasts = false;  // for_s
    bool sized = false;
    double least = 0.0;
    double most = 0.0;
};
FaultNeeds needs_of(FaultKind kind);

struct ScenarioFault {
    FaultKind kind = FaultKind::weight_stuck;
    std::string machine;
    double at_s = 0.0;
    double for_s = 0.0;
    double size = 0.0;
    int cell = 0;  // of the weight's faults: 1 to 4, or 0 for all
};

// The faults of one machine, asked by time.
class Faults {
  public:
    // The list must outlive it; what is added to it later counts as well.
    Faults(const std::vector<ScenarioFault>& all, std::string_view machine) : all_(&all), machine_(machine) {}

    // The fault of that kind that holds at that time, or nullptr.
    [[nodiscard]] const ScenarioFault* active(FaultKind kind, double time_s) const;
    // The same of one cell of the scale.
    [[nodiscard]] const ScenarioFault* active(FaultKind kind, int cell, double time_s) const;
    // The newest that has begun, however long ago, or nullptr.
    [[nodiscard]] const ScenarioFault* begun(FaultKind kind, double time_s) const;
    // One that begins in the step that ends at that time, or nullptr.
    [[nodiscard]] const ScenarioFault* begins(FaultKind kind, double time_s, double step_s) const;

  private:
    const std::vector<ScenarioFault>* all_;
    std::string machine_;
};

}  // namespace podrate::sim
