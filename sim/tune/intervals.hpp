// Ranges within which a figure may lie.
#pragma once

#include <vector>

namespace podrate::sim {

// NaN where nothing can be said.
struct Range {
    double low;
    double high;
    [[nodiscard]] bool known() const { return low <= high; }
    [[nodiscard]] bool holds(double value) const { return low <= value && value <= high; }
    [[nodiscard]] double width() const { return high - low; }
};
Range unknown_range();

// Of a share, k of n, without continuity correction: Wilson, J. American Statistical Association 22:
// 209-212, 1927. level in (0, 1). Not known where n is 0.
Range wilson_range(double k, double n, double level);

// Student's t: quantile of `p` with `degrees` of freedom, 1 or more. By the finite series of Abramowitz &
// Stegun 26.7.3 and 26.7.4, bisected; error < 1e-9 for p within 0.001 and 0.999.
double student_quantile(double p, int degrees);

// Of a bootstrap's values, drawn from `clusters`: percentiles, set further out as few clusters ask for, with
// Student's t and the factor n / (n - 1) (Hesterberg, The American Statistician 69(4): 371-386, 2015,
// "expanded percentile"). NaN among the values is passed over; where it is more than a tenth of them, or
// there are fewer than two clusters, nothing can be said. Reorders the values.
Range bootstrap_range(std::vector<double>& values, std::size_t clusters, double level);

// The upper end of a rate's range, 1/h, where `count` were seen in so many hours: exact for a Poisson count
// (Garwood, Biometrika 28: 437-442, 1936); relative error < 1e-9. Infinite where hours is 0.
double rate_bound(double count, double hours, double level);

}  // namespace podrate::sim
