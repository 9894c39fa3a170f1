#include "core/least_eigenvalue.hpp"

#include <Eigen/Eigenvalues>
#include <limits>

namespace podrate::test {

double least_eigenvalue(const double* entries, int size) {
    const Eigen::Map<const Eigen::MatrixXd> symmetric(entries, size, size);
    if (!symmetric.allFinite()) return std::numeric_limits<double>::quiet_NaN();
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(symmetric, Eigen::EigenvaluesOnly);
    return solver.eigenvalues()(0);
}

}  // namespace podrate::test
