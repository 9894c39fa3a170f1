// Nonlinear least squares: Levenberg and Marquardt's way, as Eigen keeps it.
#pragma once

#include <Eigen/Core>
#include <functional>

namespace podrate::sim {

struct LeastSquaresFit {
    Eigen::VectorXd value;
    Eigen::MatrixXd inverse_information;  // (J'J)^-1: times the residuals' variance, the covariance
    double sum_of_squares = 0.0;
    long residuals = 0;
    bool converged = false;

    // Of the residuals, over those that are more than the parameters need; 0 where there are none more.
    [[nodiscard]] double residual_variance() const;
};

// residuals(p, r) fills r, whose size is `count`, at least that of `start`.
LeastSquaresFit least_squares(const std::function<void(const Eigen::VectorXd&, Eigen::VectorXd&)>& residuals,
                              const Eigen::VectorXd& start, long count);

// The same where the caller knows the slopes: fills r, and d r / d p where `slope` is not null.
using SlopedResiduals =
    std::function<void(const Eigen::VectorXd& p, Eigen::VectorXd& r, Eigen::MatrixXd* slope)>;
LeastSquaresFit least_squares_with_slope(const SlopedResiduals& residuals, const Eigen::VectorXd& start,
                                         long count);

}  // namespace podrate::sim
