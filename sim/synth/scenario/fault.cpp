#include "synth/scenario/fault.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kNames[kFaultKinds] = {
    "weight_stuck", "weight_drift", "weight_clipped", "weight_dropout", "weight_open",  "speed_stuck",
    "speed_zero",   "tilt_dead",    "clock_jump",     "rows_dropped",   "rows_doubled", "rows_swapped",
    "log_cut",      "tip_in_part",  "taken_by_hand",  "hopper_leak",    "drum_blocked",
};

}  // namespace

const char* name_of(FaultKind kind) {
    return kNames[static_cast<int>(kind)];
}

std::optional<FaultKind> fault_named(std::string_view name) {
    for (int i = 0; i < kFaultKinds; ++i) {
        if (name == kNames[i]) return static_cast<FaultKind>(i);
    }
    return std::nullopt;
}

FaultNeeds needs_of(FaultKind kind) {
    switch (kind) {
        case FaultKind::weight_drift: return {true, true, -1000.0, 1000.0};
        case FaultKind::weight_clipped: return {true, true, 0.0, 20000.0};
        case FaultKind::weight_open: return {true, true, -2000.0, 20000.0};
        case FaultKind::hopper_leak: return {true, true, 0.0, 100.0};
        case FaultKind::clock_jump: return {false, true, -86400.0, 86400.0};
        case FaultKind::tip_in_part:
        case FaultKind::taken_by_hand: return {false, true, 0.0, 10000.0};
        case FaultKind::log_cut: return {};
        default: return {true, false, 0.0, 0.0};
    }
}

const ScenarioFault* Faults::active(FaultKind kind, double time_s) const {
    for (const ScenarioFault& fault : *all_) {
        if (fault.kind == kind && fault.machine == machine_ && time_s >= fault.at_s &&
            time_s < fault.at_s + fault.for_s)
            return &fault;
    }
    return nullptr;
}

const ScenarioFault* Faults::active(FaultKind kind, int cell, double time_s) const {
    for (const ScenarioFault& fault : *all_) {
        const bool meant =
            fault.kind == kind && fault.machine == machine_ && (fault.cell == 0 || fault.cell == cell);
        if (meant && time_s >= fault.at_s && time_s < fault.at_s + fault.for_s) return &fault;
    }
    return nullptr;
}

const ScenarioFault* Faults::begun(FaultKind kind, double time_s) const {
    const ScenarioFault* newest = nullptr;
    for (const ScenarioFault& fault : *all_) {
        if (fault.kind != kind || fault.machine != machine_ || time_s < fault.at_s) continue;
        if (newest == nullptr || fault.at_s >= newest->at_s) newest = &fault;
    }
    return newest;
}

const ScenarioFault* Faults::begins(FaultKind kind, double time_s, double step_s) const {
    for (const ScenarioFault& fault : *all_) {
        if (fault.kind == kind && fault.machine == machine_ && time_s >= fault.at_s &&
            time_s - step_s < fault.at_s)
            return &fault;
    }
    return nullptr;
}

}  // namespace podrate::sim
