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

// What the belief of M states at the next step, beyond what was predicted of them, says of this step's N.
template <int N, int M>
Gaussian<double, N> carried_back(const Gaussian<double, N>& filtered,
                                 const Eigen::Matrix<double, M, N>& jacobian,
                                 const Gaussian<double, M>& later, const Gaussian<double, M>& predicted) {
    constexpr double kTrace = 1e-12;  // on the diagonal: what is known exactly cannot be inverted
    const Square<double, M> regular = predicted.covariance + kTrace * Square<double, M>::Identity();
    const Eigen::Matrix<double, N, M> gain = filtered.covariance * jacobian.transpose() * regular.inverse();
    Gaussian<double, N> belief;
    belief.mean = filtered.mean + gain * (later.mean - predicted.mean);
    belief.covariance =
        filtered.covariance + gain * (later.covariance - predicted.covariance) * gain.transpose();
    belief.symmetrise();
    return belief;
}

// The smoothed beliefs, step by step. An empty run gives none. Two states at least.
template <int N>
std::vector<Gaussian<double, N>> smoothed(const std::vector<FilterStep<N>>& steps) {
    std::vector<Gaussian<double, N>> beliefs(steps.size());
    if (steps.empty()) return beliefs;
    beliefs.back() = steps.back().filtered;
    for (std::size_t i = steps.size() - 1; i-- > 0;) {
        const FilterStep<N>& next = steps[i + 1];
        if (next.retold < 0) {
            beliefs[i] = carried_back<N, N>(steps[i].filtered, next.jacobian, beliefs[i + 1], next.predicted);
            continue;
        }
        // Only the other states have a past.
        using Pick = Eigen::Matrix<double, N - 1, N>;
        Pick others = Pick::Zero();
        for (int row = 0; row < N - 1; ++row) others(row, row < next.retold ? row : row + 1) = 1.0;
        const auto picked = [&others](const Gaussian<double, N>& belief) {
            return Gaussian<double, N - 1>{others * belief.mean,
                                           others * belief.covariance * others.transpose()};
        };
        const Pick jacobian = others * next.jacobian;
        beliefs[i] = carried_back<N, N - 1>(steps[i].filtered, jacobian, picked(beliefs[i + 1]),
                                            picked(next.predicted));
    }
    return beliefs;
}

}  // namespace podrate::sim
