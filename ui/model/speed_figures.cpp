#include "model/speed_figures.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "log/units.hpp"

namespace podrate::ui {
namespace {

constexpr double kAdviceRoundKgpha = 10.0;
constexpr double kNothingLearnt = 0.1;

double kmph(Real mps) {
    return sim::kKmphPerMps * static_cast<double>(mps);
}

// "+0.6", "−80", "no change".
std::string change(double value, int decimals, const char* unit) {
    const std::string figure = sim::fixed(std::abs(value), decimals);
    if (std::stod(figure) == 0.0)
        return "\xC2\xB1"
               "0 " +
               std::string(unit);
    return (value > 0.0 ? "+" : "\xE2\x88\x92") + figure + ' ' + unit;
}

StepLine step_line(const SpeedStep& step, const char* speed, bool guess) {
    const double kgpha = sim::kKgphaPerKgpm2 * static_cast<double>(step.ground_kgpm2);
    const double rounded = kAdviceRoundKgpha * std::round(kgpha / kAdviceRoundKgpha);
    return {speed, change(sim::kTphPerKgps * static_cast<double>(step.gained_kgps), 1, "t/h"),
            (guess ? "perhaps " : "") + change(rounded, 0, "kg/ha lost")};
}

}  // namespace

SpeedFigures speed_figures(const Estimate& e, const Parameters& p) {
    SpeedFigures f;
    const bool has_speed = (e.faults & kSpeedMissing) == 0;
    const bool working = e.state == WorkState::harvesting;
    const Advice& advice = e.advice;
    if (has_speed) f.now_kmph = sim::fixed(kmph(e.speed_mps), 1);
    f.why = advice_words(advice, p);
    f.later = !working;
    if (advice.speed.known && advice.binding != Binding::unsure) {
        f.advised = true;
        const double right = kmph(advice.speed.speed_mps);
        f.right_kmph = sim::fixed(right, 1);
        if (advice.binding != Binding::machine_limits) {
            // What is shown follows its target slowly, and may for a while lie outside the target's interval.
            const double low = std::min(right, kmph(advice.speed.low_mps));
            const double high = std::max(right, kmph(advice.speed.high_mps));
            f.right_interval = sim::fixed(low, 1) + " to " + sim::fixed(high, 1);
        }
        f.reason = reason_words(advice, p, f.right_kmph);
    }
    if (!working || !has_speed) return f;
    if (advice.past_fold) {
        f.past_fold = true;
        f.reason = kPastFold;
    }
    const bool looked = advice.faster.gained_kgps != Real(0) || advice.slower.gained_kgps != Real(0);
    if (!looked) return f;
    f.steps = true;
    const bool guess = static_cast<double>(e.loss_learnt) < kNothingLearnt && e.tray_checks == 0;
    f.faster = step_line(advice.faster, kHalfFaster, guess);
    f.slower = step_line(advice.slower, kHalfSlower, guess);
    return f;
}

}  // namespace podrate::ui
