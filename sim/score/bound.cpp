#include "score/bound.hpp"

#include <algorithm>
#include <cmath>

#include "score/fixed_interval.hpp"
#include "score/true_model.hpp"

namespace podrate::sim {
namespace {

using Step = FilterStep<TrueModel::size>;
constexpr double kTipNoiseKg = 5.0;
constexpr double kStrangeSd = 6.0;  // a weight so far off, and so many kg, is no reading of the hopper
constexpr double kStrangeKg = 10.0;
constexpr int kStrangeS = 5;

// A mass told anew by the weight, or, without one, doubted where it is.
void retell_mass(Step& step, TrueModel::Belief& belief, double weight_kg) {
    step.retold = TrueModel::mass;
    const double mean_kg = std::isfinite(weight_kg) ? weight_kg : belief.mean(TrueModel::mass);
    retell(belief, TrueModel::mass, mean_kg, kTipNoiseKg * kTipNoiseKg);
}

// The filter's run over the day: along the truth, or, where weights are given, along its own estimate.
std::vector<Step> run(const TruePlant& plant, const std::vector<double>* weights_kg) {
    std::vector<Step> steps;
    if (plant.seconds.empty()) return steps;
    const TrueModel model(plant);
    TrueModel::Belief belief = model.start();
    const auto weight_at = [&](std::size_t i) {
        return weights_kg != nullptr && i < weights_kg->size() ? (*weights_kg)[i] : std::nan("");
    };
    if (std::isfinite(weight_at(0))) belief.mean(TrueModel::mass) = weight_at(0);
    int strange_s = 0;
    for (std::size_t i = 0; i < plant.seconds.size(); ++i) {
        Step& step = steps.emplace_back();
        if (i > 0) {
            Vector<double, TrueModel::size> noise;
            model.step(i - 1, step.jacobian, noise, weights_kg != nullptr ? &belief.mean : nullptr);
            predict_covariance(belief, step.jacobian, noise);
        }
        step.predicted = belief;
        const double weight_kg = weights_kg != nullptr ? weight_at(i) : 0.0;
        if (plant.seconds[i].tipping) {
            retell_mass(step, belief, weight_kg);
        } else if (std::isfinite(weight_kg)) {
            const double variance_kg2 = model.reading_variance(i);
            const auto innovation = innovation_of(belief, TrueModel::mass, weight_kg, variance_kg2);
            const bool strange =
                weights_kg != nullptr &&
                std::abs(innovation.residual) > kStrangeSd * std::sqrt(innovation.variance) + kStrangeKg;
            strange_s = strange ? strange_s + 1 : 0;
            if (strange_s > kStrangeS) {
                // Peas or sensor have jumped: the mass is told anew.
                strange_s = 0;
                retell_mass(step, belief, weight_kg);
            } else if (!strange) {
                update_scalar(belief, TrueModel::mass, weight_kg, variance_kg2);
            }
        }
        step.filtered = belief;
    }
    return steps;
}

}  // namespace

FlowBound flow_bound(const TruePlant& plant) {
    const std::vector<Step> steps = run(plant, nullptr);
    const auto beliefs = smoothed(steps);
    FlowBound bound;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const double filter = steps[i].filtered.covariance(TrueModel::flow, TrueModel::flow);
        bound.filter_variance.push_back(filter);
        bound.smoother_variance.push_back(
            std::clamp(beliefs[i].covariance(TrueModel::flow, TrueModel::flow), 0.0, filter));
    }
    return bound;
}

std::vector<double> smoothed_flow(const TruePlant& plant, const std::vector<double>& weights_kg) {
    std::vector<double> flow;
    for (const auto& belief : smoothed(run(plant, &weights_kg))) flow.push_back(belief.mean(TrueModel::flow));
    return flow;
}

}  // namespace podrate::sim
