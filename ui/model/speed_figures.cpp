#include "model/speed_figures.hpp"

#include <algorithm>

#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr double kNothingLearnt = 0.1;

StepLine step_line(const SpeedStep& step, Text speed, bool guess, const Speech& say) {
    const std::string ground =
        say(Text::more_lost, {change_of(say, Quantity::ground, static_cast<double>(step.ground_kgpm2))});
    return {say(speed, {with_unit(say, Quantity::speed, static_cast<double>(kSpeedStepMps))}),
            change_of(say, Quantity::rate, static_cast<double>(step.gained_kgps)),
            guess ? say(Text::perhaps, {ground}) : ground};
}

}  // namespace

SpeedFigures speed_figures(const Estimate& e, const Parameters& p, const Speech& say) {
    SpeedFigures f;
    const bool has_speed = (e.faults & kSpeedMissing) == 0;
    const bool working = e.state == WorkState::harvesting;
    const Advice& advice = e.advice;
    if (has_speed) f.now = figure(say, Quantity::speed, static_cast<double>(e.speed_mps));
    f.why = advice_words(advice, p, say);
    f.later = !working;
    if (advice.speed.known && advice.binding != Binding::unsure) {
        f.advised = true;
        const auto right = static_cast<double>(advice.speed.speed_mps);
        f.right = figure(say, Quantity::speed, right);
        if (advice.binding != Binding::machine_limits) {
            // What is shown follows its target slowly, and may for a while lie outside the target's interval.
            const double low = std::min(right, static_cast<double>(advice.speed.low_mps));
            const double high = std::max(right, static_cast<double>(advice.speed.high_mps));
            f.right_interval = figures(say, Quantity::speed, low, high);
        }
        f.reason = reason_words(advice, p, say);
    }
    if (!working || !has_speed) return f;
    if (advice.past_fold) {
        f.past_fold = true;
        f.reason = say(Text::past_fold);
    }
    const bool looked = advice.faster.gained_kgps != Real(0) || advice.slower.gained_kgps != Real(0);
    if (!looked) return f;
    f.steps = true;
    const bool guess = static_cast<double>(e.loss_learnt) < kNothingLearnt && e.tray_checks == 0;
    f.faster = step_line(advice.faster, Text::faster_by, guess, say);
    f.slower = step_line(advice.slower, Text::slower_by, guess, say);
    return f;
}

}  // namespace podrate::ui
