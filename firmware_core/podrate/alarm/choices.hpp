// The alarms' own choices. A limit, its deadband and its delays belong to the one who raises the alarm.
#pragma once

#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate::choices::alarm {

// Three activations within a minute are chatter: the conventional figure of ISA-18.2 and IEC 62682.
inline constexpr int kChatterActivations = 3;
inline constexpr TimeUs kChatterUs = 60 * kSecondUs;
// Two calls further apart than that, twice the slowest log, say no more about the time between them.
inline constexpr TimeUs kCallLastsUs = 10 * kSecondUs;
inline constexpr Real kLongestDelayS = Real(3600);  // s: a delay beyond an hour is none that was meant
inline constexpr Real kLongestShelfS =
    Real(43200);  // s: one shift of twelve hours, then it is looked at again
// of h: where the sum of a CUSUM stops. The alarm comes no later, and can end without a reset.
inline constexpr Real kCusumCeiling = Real(2);

// A drum that blocks
inline constexpr Real kBlockageK = Real(0.75);    // sd: half of the shift of a flow that stops within seconds
inline constexpr Real kBlockageMostSd = Real(5);  // a block counts no more than so many sd
inline constexpr Real kBlockedShare =
    Real(0.6);  // of the flow expected: with more than that coming nothing is blocked
inline constexpr TimeUs kJudgeEveryUs = kSecondUs / 5;

}  // namespace podrate::choices::alarm
