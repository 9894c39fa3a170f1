#include "tune/intervals.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "analysis/quantile.hpp"
#include "plan/normal_quantile.hpp"

namespace podrate::sim {
namespace {

// P(|T| < t).
double student_within(double t, int degrees) {
    const double angle = std::atan(t / std::sqrt(static_cast<double>(degrees)));
    const double cos2 = std::cos(angle) * std::cos(angle);
    const bool odd = degrees % 2 == 1;
    double term = odd ? std::cos(angle) : 1.0;
    double sum = degrees == 1 ? 0.0 : term;
    for (int k = odd ? 3 : 2; k <= degrees - 2; k += 2) {
        term *= cos2 * (k - 1.0) / k;
        sum += term;
    }
    return odd ? 2.0 / std::numbers::pi * (angle + std::sin(angle) * sum) : std::sin(angle) * sum;
}

// P(N <= count), N a Poisson count of that mean: summed from the last term down.
double poisson_at_most(double count, double mean) {
    double term = std::exp(count * std::log(mean) - mean - std::lgamma(count + 1.0));
    double sum = 0.0;
    for (double k = count; k >= 0.0 && term > 1e-18 * sum; --k) {
        sum += term;
        term *= k / mean;
    }
    return sum;
}

}  // namespace

Range unknown_range() {
    constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
    return {kNaN, kNaN};
}

Range wilson_range(double k, double n, double level) {
    if (n <= 0.0) return unknown_range();
    const double z = normal_quantile(0.5 + 0.5 * level);
    const double share = k / n;
    const double scale = 1.0 + z * z / n;
    const double middle = (share + z * z / (2.0 * n)) / scale;
    const double reach = z / scale * std::sqrt(share * (1.0 - share) / n + z * z / (4.0 * n * n));
    return {std::max(0.0, middle - reach), std::min(1.0, middle + reach)};
}

double student_quantile(double p, int degrees) {
    const double within = std::abs(2.0 * p - 1.0);
    double low = 0.0;
    double high = 1.0;
    while (student_within(high, degrees) < within && high < 1e9) high *= 2.0;
    for (int i = 0; i < 100; ++i) {
        const double middle = 0.5 * (low + high);
        (student_within(middle, degrees) < within ? low : high) = middle;
    }
    return p < 0.5 ? -0.5 * (low + high) : 0.5 * (low + high);
}

Range bootstrap_range(std::vector<double>& values, std::size_t clusters, double level) {
    const std::size_t drawn = values.size();
    std::erase_if(values, [](double value) { return std::isnan(value); });
    if (clusters < 2 || values.empty() || 10 * values.size() < 9 * drawn) return unknown_range();
    const auto n = static_cast<double>(clusters);
    const double t = student_quantile(0.5 + 0.5 * level, static_cast<int>(clusters) - 1);
    const double tail = normal_below(-t * std::sqrt(n / (n - 1.0)));
    const double low = quantile(values, tail);
    return {low, quantile(values, 1.0 - tail)};
}

double rate_bound(double count, double hours, double level) {
    if (hours <= 0.0) return std::numeric_limits<double>::infinity();
    const double tail = 0.5 * (1.0 - level);
    double low = count;
    double high = count + 1.0;
    while (poisson_at_most(count, high) > tail) high *= 2.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (poisson_at_most(count, middle) > tail ? low : high) = middle;
    }
    return 0.5 * (low + high) / hours;
}

}  // namespace podrate::sim
