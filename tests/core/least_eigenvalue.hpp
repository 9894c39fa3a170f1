// Whether a covariance is one: its least eigenvalue.
#pragma once

#include <Eigen/Core>

namespace podrate::test {

// Of the symmetric matrix of `size` rows whose entries stand one after another; NaN where one is not finite.
// In a file of its own: the solver takes seconds to compile.
double least_eigenvalue(const double* entries, int size);

template <class T, int N>
double least_eigenvalue(const Eigen::Matrix<T, N, N>& symmetric) {
    const Eigen::Matrix<double, N, N> wide = symmetric.template cast<double>();
    return least_eigenvalue(wide.data(), N);
}

}  // namespace podrate::test
