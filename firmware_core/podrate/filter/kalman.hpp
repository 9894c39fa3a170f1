// Gaussian beliefs: prediction and scalar measurement updates, for any fixed size.
#pragma once

#include <Eigen/Core>

namespace podrate {

template <class T, int N>
using Vector = Eigen::Matrix<T, N, 1>;
template <class T, int N>
using Square = Eigen::Matrix<T, N, N>;

template <class T, int N>
struct Gaussian {
    Vector<T, N> mean = Vector<T, N>::Zero();
    Square<T, N> covariance = Square<T, N>::Identity();

    void symmetrise() {
        for (int i = 0; i < N; ++i) {
            for (int j = 0; j < i; ++j) {
                const T half = (covariance(i, j) + covariance(j, i)) * T(0.5);
                covariance(i, j) = half;
                covariance(j, i) = half;
            }
        }
    }
};

// State `row` is told anew: it forgets what it was and how it was tied to the rest.
template <class T, int N>
void retell(Gaussian<T, N>& belief, int row, T mean, T variance) {
    belief.mean(row) = mean;
    belief.covariance.row(row).setZero();
    belief.covariance.col(row).setZero();
    belief.covariance(row, row) = variance;
}

// Covariance of a prediction: P <- J P J' + diag(q). The mean is the caller's, since the models are not
// linear.
template <class T, int N>
void predict_covariance(Gaussian<T, N>& belief, const Square<T, N>& jacobian, const Vector<T, N>& noise) {
    Square<T, N> spread;
    spread.noalias() = jacobian * belief.covariance;
    belief.covariance.noalias() = spread * jacobian.transpose();
    belief.covariance.diagonal() += noise;
    belief.symmetrise();
}

template <class T>
struct Innovation {
    T residual;  // measured - predicted
    T variance;  // of that residual
};

// Residual of measuring state `row` directly with noise variance r.
template <class T, int N>
Innovation<T> innovation_of(const Gaussian<T, N>& belief, int row, T measured, T noise_variance) {
    return {measured - belief.mean(row), belief.covariance(row, row) + noise_variance};
}

// Measures state `row` directly. Joseph's form, P <- (I - K h) P (I - K h)' + K r K': a sum of two positive
// semidefinite terms whatever the rounding of K, so single precision holds for days (Bucy & Joseph 1968).
template <class T, int N>
void update_scalar(Gaussian<T, N>& belief, int row, T measured, T noise_variance) {
    const Innovation<T> innovation = innovation_of(belief, row, measured, noise_variance);
    const Vector<T, N> gain = belief.covariance.col(row) / innovation.variance;
    belief.mean += gain * innovation.residual;
    Square<T, N> kept = Square<T, N>::Identity();
    kept.col(row) -= gain;
    Square<T, N> half;
    half.noalias() = kept * belief.covariance;
    belief.covariance.noalias() = half * kept.transpose();
    belief.covariance.noalias() += gain * (gain.transpose() * noise_variance);
    belief.symmetrise();
}

}  // namespace podrate
