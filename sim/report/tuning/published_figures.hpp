// What the standards of alarm management publish, to be set beside what a sweep found. All from memory: IEC
// 62682, ISA-18.2 and EEMUA 191 are sold, and were not at hand. They speak of control rooms; a cab is none.
#pragma once

#include "podrate/alarm/alarm_panel.hpp"

namespace podrate::sim {

// Of one operator; EEMUA 191, taken over by ISA-18.2 and IEC 62682.
inline constexpr double kAcceptablePerTen = 1.0;                 // "very likely to be acceptable"
inline constexpr double kManageablePerTen = 2.0;                 // at most manageable
inline constexpr int kFloodInTen = 10;                           // more than that in ten minutes is a flood
inline constexpr double kMostFloodShare = 0.01;                  // of the time
inline constexpr double kPriorityShares[] = {0.80, 0.15, 0.05};  // low, medium, high: about

// ISA-18.2's points to start from, by kind of signal: deadband as a share of the range, delays.
struct SignalKind {
    const char* name;
    double deadband_share;
    double delay_s;  // on and off alike
};
inline constexpr SignalKind kSignalKinds[] = {
    {"flow", 0.05, 15.0}, {"level", 0.05, 60.0}, {"pressure", 0.02, 15.0}, {"temperature", 0.01, 60.0}};

// The kind that an alarm's value is nearest to, by our own judgement; nullptr where none is near.
constexpr const SignalKind* nearest_kind(AlarmId alarm) {
    switch (alarm) {
        case AlarmId::loss_high:
        case AlarmId::rate_low: return &kSignalKinds[0];
        case AlarmId::hopper_nearly_full:
        case AlarmId::hopper_full:
        case AlarmId::hopper_leak: return &kSignalKinds[1];
        default: return nullptr;
    }
}

}  // namespace podrate::sim
