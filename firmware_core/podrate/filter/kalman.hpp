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

// P h where many entries of h are 0: those cost nothing.
template <class T, int N>
Vector<T, N> times_sparse(const Square<T, N>& p, const Vector<T, N>& h) {
    Vector<T, N> sum = Vector<T, N>::Zero();
    for (int j = 0; j < N; ++j) {
        if (h(j) < T(0) || h(j) > T(0)) sum += p.col(j) * h(j);
    }
    return sum;
}

// Covariance of a prediction, P <- J P J' + diag(q), where only the first M rows of J differ from an
// identity's: `moving` holds those. Cost M N^2 instead of 2 N^3, less where they hold zeros, and sums in an
// order of our own: that of Eigen's large products depends on its version. The mean is the caller's, since
// the models are not linear.
template <class T, int M, int N>
void predict_covariance(Gaussian<T, N>& belief, const Eigen::Matrix<T, M, N>& moving,
                        const Vector<T, N>& noise) {
    Eigen::Matrix<T, M, N> spread;
    for (int i = 0; i < M; ++i) {
        const Vector<T, N> row = moving.row(i).transpose();
        spread.row(i) = times_sparse(belief.covariance, row).transpose();
    }
    for (int i = 0; i < M; ++i) {
        for (int j = 0; j <= i; ++j) {
            const T corner = spread.row(i).dot(moving.row(j));
            belief.covariance(i, j) = corner;
            belief.covariance(j, i) = corner;
        }
        for (int j = M; j < N; ++j) {
            belief.covariance(i, j) = spread(i, j);
            belief.covariance(j, i) = spread(i, j);
        }
    }
    belief.covariance.diagonal() += noise;
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

// Takes a measurement whose covariance with the state is `tied` = P h, variance `innovation.variance` = h P
// h' + r. Joseph's form, P <- (I - K h) P (I - K h)' + K r K', written out as P - K p' - p K' + K s K': an
// error in K only counts squared, so single precision holds for days (Bucy & Joseph 1968). Only one triangle
// is worked out.
template <class T, int N>
void absorb(Gaussian<T, N>& belief, const Vector<T, N>& tied, const Innovation<T>& innovation) {
    const Vector<T, N> gain = tied * (T(1) / innovation.variance);
    belief.mean += gain * innovation.residual;
    for (int i = 0; i < N; ++i) {
        for (int j = 0; j <= i; ++j) {
            const T less = gain(i) * tied(j) + tied(i) * gain(j) - gain(i) * innovation.variance * gain(j);
            const T left = belief.covariance(i, j) - less;
            belief.covariance(i, j) = left;
            belief.covariance(j, i) = left;
        }
    }
}

// Measures state `row` directly with noise variance r.
template <class T, int N>
void update_scalar(Gaussian<T, N>& belief, int row, T measured, T noise_variance) {
    const Innovation<T> innovation = innovation_of(belief, row, measured, noise_variance);
    const Vector<T, N> tied = belief.covariance.col(row);
    absorb(belief, tied, innovation);
}

// Measures h' x with noise variance r; `residual` is measured less predicted.
template <class T, int N>
void update_linear(Gaussian<T, N>& belief, const Vector<T, N>& h, T residual, T noise_variance) {
    const Vector<T, N> tied = times_sparse(belief.covariance, h);
    absorb(belief, tied, Innovation<T>{residual, h.dot(tied) + noise_variance});
}

}  // namespace podrate
