// What past and future together say: the fixed-interval smoother of Rauch, Tung & Striebel (1965).
#pragma once

#include <Eigen/LU>
#include <vector>

#include "podrate/filter/kalman.hpp"

namespace podrate::sim {

// One step of a filter that ran forward.
template <int N>
struct FilterStep {
    Gaussian<double, N> predicted;                               // before its measurement
    Gaussian<double, N> filtered;                                // after it
    Square<double, N> jacobian = Square<double, N>::Identity();  // from the step before into this one
    int retold = -1;  // a state that was told anew here and so carries nothing back
};

// The smoothed beliefs, step by step. An empty run gives none.
template <int N>
std::vector<Gaussian<double, N>> smoothed(const std::vector<FilterStep<N>>& steps) {
    // Added to the diagonal: what is known exactly cannot be inverted.
    constexpr double kTrace = 1e-12;
    std::vector<Gaussian<double, N>> beliefs(steps.size());
    if (steps.empty()) return beliefs;
    beliefs.back() = steps.back().filtered;
    for (std::size_t i = steps.size() - 1; i-- > 0;) {
        const FilterStep<N>& next = steps[i + 1];
        Gaussian<double, N> later = beliefs[i + 1];
        if (next.retold >= 0) {
            later.mean(next.retold) = next.predicted.mean(next.retold);
            later.covariance.row(next.retold) = next.predicted.covariance.row(next.retold);
            later.covariance.col(next.retold) = next.predicted.covariance.col(next.retold);
        }
        const Square<double, N> regular = next.predicted.covariance + kTrace * Square<double, N>::Identity();
        const Square<double, N> gain =
            steps[i].filtered.covariance * next.jacobian.transpose() * regular.inverse();
        beliefs[i].mean = steps[i].filtered.mean + gain * (later.mean - next.predicted.mean);
        beliefs[i].covariance = steps[i].filtered.covariance +
                                gain * (later.covariance - next.predicted.covariance) * gain.transpose();
        beliefs[i].symmetrise();
    }
    return beliefs;
}

}  // namespace podrate::sim
