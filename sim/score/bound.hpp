// The best that any estimator could do, told the true plant.
#pragma once

#include <vector>

#include "score/true_plant.hpp"

namespace podrate::sim {

struct FlowBound {
    std::vector<double> filter_variance;    // of the flow, (kg/s)2, second by second: from the past alone
    std::vector<double> smoother_variance;  // from past and future
};

// Covariance recursion of the extended Kalman filter linearised along the truth, told every constant: for an
// (almost) linear model with Gaussian noise that is the posterior Cramer-Rao bound (Tichavsky, Muravchik &
// Nehorai 1998). The smoother's is that of the fixed-interval recursion on the same model.
FlowBound flow_bound(const TruePlant& plant);

// The flow, kg/s, second by second, by the fixed-interval smoother of the true model from weights as the cab
// had them, tilt taken off: one a second, kg, NaN where there is none. What nobody can know live.
std::vector<double> smoothed_flow(const TruePlant& plant, const std::vector<double>& weights_kg);

}  // namespace podrate::sim
