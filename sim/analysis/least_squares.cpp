#include "analysis/least_squares.hpp"

#include <Eigen/LU>
#include <Eigen/QR>
#include <unsupported/Eigen/LevenbergMarquardt>
#include <unsupported/Eigen/NumericalDiff>

namespace podrate::sim {
namespace {

struct Residuals : Eigen::DenseFunctor<double> {
    Residuals(const std::function<void(const Eigen::VectorXd&, Eigen::VectorXd&)>& f, Eigen::Index inputs,
              Eigen::Index values)
        : Eigen::DenseFunctor<double>(static_cast<int>(inputs), static_cast<int>(values)), of(f) {}
    int operator()(const Eigen::VectorXd& p, Eigen::VectorXd& r) const {
        of(p, r);
        return 0;
    }
    const std::function<void(const Eigen::VectorXd&, Eigen::VectorXd&)>& of;
};

constexpr double kTolerance = 1e-10;
constexpr double kFirstStep = 0.1;  // of the start's size: a long first step may land where nothing slopes
constexpr int kMostEvaluations = 4000;

struct WithSlope : Eigen::DenseFunctor<double> {
    WithSlope(const SlopedResiduals& f, Eigen::Index inputs, Eigen::Index values)
        : Eigen::DenseFunctor<double>(static_cast<int>(inputs), static_cast<int>(values)), of(f), r(values) {}
    int operator()(const Eigen::VectorXd& p, Eigen::VectorXd& to) const {
        of(p, to, nullptr);
        return 0;
    }
    int df(const Eigen::VectorXd& p, Eigen::MatrixXd& slope) {
        of(p, r, &slope);
        return 0;
    }
    const SlopedResiduals& of;
    Eigen::VectorXd r;
};

template <class Functor>
LeastSquaresFit solve(Functor& functor, const Eigen::VectorXd& start, long count) {
    Eigen::LevenbergMarquardt<Functor> solver(functor);
    solver.setFactor(kFirstStep);
    solver.setFtol(kTolerance);
    solver.setXtol(kTolerance);
    solver.setMaxfev(kMostEvaluations);
    LeastSquaresFit fit;
    fit.value = start;
    fit.residuals = count;
    const auto status = solver.minimize(fit.value);
    fit.converged = status != Eigen::LevenbergMarquardtSpace::ImproperInputParameters &&
                    status != Eigen::LevenbergMarquardtSpace::TooManyFunctionEvaluation;
    Eigen::VectorXd r(count);
    functor(fit.value, r);
    fit.sum_of_squares = r.squaredNorm();
    Eigen::MatrixXd jacobian(count, start.size());
    functor.df(fit.value, jacobian);
    fit.inverse_information = (jacobian.transpose() * jacobian).inverse();
    return fit;
}

}  // namespace

double LeastSquaresFit::residual_variance() const {
    const long more = residuals - value.size();
    return more > 0 ? sum_of_squares / static_cast<double>(more) : 0.0;
}

LeastSquaresFit least_squares(const std::function<void(const Eigen::VectorXd&, Eigen::VectorXd&)>& residuals,
                              const Eigen::VectorXd& start, long count) {
    Eigen::NumericalDiff<Residuals, Eigen::Central> functor(Residuals(residuals, start.size(), count));
    return solve(functor, start, count);
}

LeastSquaresFit least_squares_with_slope(const SlopedResiduals& residuals, const Eigen::VectorXd& start,
                                         long count) {
    WithSlope functor(residuals, start.size(), count);
    return solve(functor, start, count);
}

}  // namespace podrate::sim
