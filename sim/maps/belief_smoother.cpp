#include "maps/belief_smoother.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/choices.hpp"

namespace podrate::sim {
namespace {

using State = BeliefSmoother::State;
using Spread = BeliefSmoother::Spread;

constexpr double kForgottenKg2 = 1e8;  // of a mass that was told anew
constexpr double kJumpKg = 10.0;       // and standard deviations: no flow explains more
constexpr double kJumpSd = 8.0;

State mean_of(const BeliefStep& step) {
    State mean;
    for (int i = 0; i < BeliefSmoother::kSize; ++i)
        mean(i) = static_cast<double>(step.mean[static_cast<std::size_t>(i)]);
    return mean;
}

Spread spread_of(const BeliefStep& step) {
    Spread spread;
    std::size_t at = 0;
    for (int i = 0; i < BeliefSmoother::kSize; ++i) {
        for (int j = 0; j <= i; ++j) spread(i, j) = spread(j, i) = static_cast<double>(step.covariance[at++]);
    }
    return spread;
}

}  // namespace

void BeliefSmoother::begin(const BeliefStep& last) {
    mean_ = mean_of(last);
    spread_ = spread_of(last);
}

void BeliefSmoother::step(const BeliefStep& at, const BeliefStep& later, const DrumStep& drum) {
    enum : Eigen::Index { mass, flow, ln_crop, ln_mean };
    const State mean = mean_of(at);
    const Spread spread = spread_of(at);
    const double lag_s = static_cast<double>(at.lag_s);
    const double kept = std::exp(-drum.dt_s / lag_s);
    const double gone = 1.0 - kept;
    const double direct_s = drum.dt_s - lag_s * gone;
    const double far_m = drum.area_m2 / drum.width_m;
    const double like = std::exp(-far_m / drum.crop_length_m);
    const double ratio = static_cast<double>(at.passed_ratio);
    const double taken_kg = ratio * drum.area_m2 * std::exp(mean(ln_crop));
    const double inflow = taken_kg / drum.dt_s;

    Spread f = Spread::Identity();
    f(mass, flow) = lag_s * gone;
    f(flow, flow) = kept;
    f(mass, ln_crop) = inflow * direct_s;
    f(flow, ln_crop) = inflow * gone;
    f(ln_crop, ln_crop) = like;
    f(ln_crop, ln_mean) = 1.0 - like;
    State predicted = mean;
    predicted(mass) += inflow * drum.dt_s + (mean(flow) - inflow) * lag_s * gone;
    predicted(flow) = kept * mean(flow) + gone * inflow;
    predicted(ln_crop) = like * mean(ln_crop) + (1.0 - like) * mean(ln_mean);

    // Patches of a few paces, as noise of what comes in.
    const double patchy = far_m > 0.0 ? inflow * inflow * drum.patch_m / far_m : 0.0;
    State enters = State::Zero();
    enters(mass) = direct_s;
    enters(flow) = gone;
    const double cv = static_cast<double>(at.crop_cv);
    const double unexplained = drum.flow_noise_share * std::max(mean(flow), inflow);
    Spread ahead = f * spread * f.transpose();
    ahead.noalias() += patchy * enters * enters.transpose();
    ahead(mass, mass) += static_cast<double>(choices::flow::kMassNoise) * drum.dt_s;
    ahead(flow, flow) +=
        (unexplained * unexplained + static_cast<double>(choices::flow::kFlowNoise)) * drum.dt_s;
    ahead(ln_crop, ln_crop) += cv * cv * (1.0 - like * like);
    ahead(ln_mean, ln_mean) += drum.mean_drift * drum.mean_drift * far_m;

    const double jump_kg = std::abs(static_cast<double>(later.mean[mass]) - predicted(mass));
    if (later.mass_retold || jump_kg > kJumpKg + kJumpSd * std::sqrt(ahead(mass, mass)))
        ahead(mass, mass) += kForgottenKg2;

    const Spread back = ahead.inverse();
    const State news = mean_ - predicted;
    gain_.noalias() = spread * f.transpose() * back;

    // What was cut: h x + noise.
    const State crop_kg = taken_kg * spread.col(ln_crop);  // with the state before
    const State with_later = f * crop_kg + patchy * drum.dt_s * enters;
    pull_ = back * with_later;
    const double alone_kg2 = taken_kg * taken_kg * spread(ln_crop, ln_crop) + patchy * drum.dt_s * drum.dt_s -
                             pull_.dot(with_later);
    variance_kg2_ = std::max(0.0, pull_.dot(spread_ * pull_) + alone_kg2);
    with_state_ = gain_ * (spread_ * pull_) + crop_kg - gain_ * with_later;

    mean_ = mean + gain_ * news;
    spread_ = spread + gain_ * (spread_ - ahead) * gain_.transpose();
    // As linear as what is carried back, so that the sum is what the scale saw.
    kg_ = taken_kg + pull_.dot(news);
}

}  // namespace podrate::sim
