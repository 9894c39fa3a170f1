#include <algorithm>
#include <cmath>

#include "maturity/ripening.hpp"

namespace podrate::sim {

Ripening::MeanSd Ripening::expect(double first_s, double second_s,
                                  const std::function<double(double, double)>& value) const {
    // Gauss-Hermite of five nodes for a standard normal (Abramowitz & Stegun, table 25.10, rescaled).
    static constexpr double kNode[] = {-2.856970014, -1.355626180, 0.0, 1.355626180, 2.856970014};
    static constexpr double kWeight[] = {0.01125741133, 0.2220759220, 0.5333333333, 0.2220759220,
                                         0.01125741133};
    double sum = 0.0;
    double squares = 0.0;
    for (const Rate& rate : rates_) {
        const Level first = level_at(rate, first_s);
        const double rise = rate.per_unit * (clock_->at(second_s) - clock_->at(first_s));
        const double heat_variance = clock_->variance_at(second_s) - clock_->variance_at(first_s);
        const double then_sd = std::sqrt(wander(first_s, second_s) +
                                         rate.per_unit * rate.per_unit * std::max(0.0, heat_variance));
        for (int i = 0; i < 5; ++i) {
            const double now = first.mean + kNode[i] * std::sqrt(first.variance);
            for (int j = 0; j < 5; ++j) {
                const double here = value(std::exp(now), std::exp(now + rise + kNode[j] * then_sd));
                const double weight = rate.weight * kWeight[i] * kWeight[j];
                sum += weight * here;
                squares += weight * here * here;
            }
        }
    }
    return {sum, std::sqrt(std::max(0.0, squares - sum * sum))};
}

}  // namespace podrate::sim
