#include "analysis/quantile.hpp"

#include <algorithm>

namespace podrate::sim {

double quantile(std::vector<double>& values, double share) {
    if (values.empty()) return 0.0;
    const double at = share * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::ptrdiff_t>(at);
    std::nth_element(values.begin(), values.begin() + below, values.end());
    const double low = values[static_cast<std::size_t>(below)];
    if (at - static_cast<double>(below) <= 0.0) return low;
    const double high = *std::min_element(values.begin() + below + 1, values.end());
    return low + (at - static_cast<double>(below)) * (high - low);
}

}  // namespace podrate::sim
