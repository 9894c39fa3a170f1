#include "analysis/kriging.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <cmath>

namespace podrate::sim {

KrigedValue krige(const std::vector<KrigingPoint>& points, const VariogramModel& model, double east_m,
                  double north_m) {
    const double sill = model.nugget + model.partial_sill;
    const auto alike = [&](const KrigingPoint& a, double east, double north) {
        return sill - model.gamma(std::sqrt((a.east_m - east) * (a.east_m - east) +
                                            (a.north_m - north) * (a.north_m - north)));
    };
    const auto n = static_cast<Eigen::Index>(points.size());
    Eigen::MatrixXd between(n, n);
    Eigen::MatrixXd right(n, 2);  // with the place asked for; ones
    Eigen::VectorXd values(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const KrigingPoint& a = points[static_cast<std::size_t>(i)];
        for (Eigen::Index j = 0; j < i; ++j) {
            const KrigingPoint& b = points[static_cast<std::size_t>(j)];
            between(i, j) = alike(a, b.east_m, b.north_m);
        }
        between(i, i) = sill + a.error_variance;
        right(i, 0) = alike(a, east_m, north_m);
        right(i, 1) = 1.0;
        values(i) = a.value;
    }
    const Eigen::MatrixXd solved = between.selfadjointView<Eigen::Lower>().llt().solve(right);
    const double unbiased = (solved.col(0).sum() - 1.0) / solved.col(1).sum();  // Lagrange's multiplier
    const Eigen::VectorXd weights = solved.col(0) - unbiased * solved.col(1);
    return {weights.dot(values), sill - weights.dot(right.col(0)) - unbiased};
}

}  // namespace podrate::sim
