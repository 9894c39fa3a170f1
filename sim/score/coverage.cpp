#include "score/coverage.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr double kLeastShare = 1e-6;

double logit(double share) {
    const double inside = std::clamp(share, kLeastShare, 1.0 - kLeastShare);
    return std::log(inside / (1.0 - inside));
}

}  // namespace

void Coverage::add(double error, double sd) {
    ++count;
    for (std::size_t i = 0; i < inside.size(); ++i) {
        if (std::abs(error) <= kReach_sd[i] * sd) ++inside[i];
    }
}

void Coverage::add_share(double truth, double middle, double low, double high) {
    const double error = logit(truth) - logit(middle);
    const double reach = error < 0.0 ? logit(middle) - logit(low) : logit(high) - logit(middle);
    add(error, reach / kReach_sd[1]);
}

void Coverage::add(const Coverage& other) {
    count += other.count;
    for (std::size_t i = 0; i < inside.size(); ++i) inside[i] += other.inside[i];
}

double Coverage::pct(std::size_t level) const {
    return count > 0 ? 100.0 * static_cast<double>(inside[level]) / static_cast<double>(count) : 0.0;
}

}  // namespace podrate::sim
