#include "maturity/heat_units.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace podrate::sim {
namespace {

constexpr int kHoursOfDay = 24;
constexpr double kMiddayOfRise = 9.5;  // when the sine passes its mean, from the middle of an hour

// Of a sine from `min` to `max`, above `limit`.
double sine_above(double limit, double min, double max) {
    const double mean = 0.5 * (min + max);
    if (min >= limit) return mean - limit;
    if (max <= limit) return 0.0;
    const double swing = 0.5 * (max - min);
    const double from = std::asin((limit - mean) / swing);
    return ((mean - limit) * (0.5 * std::numbers::pi - from) + swing * std::cos(from)) / std::numbers::pi;
}

double above_base_at(int hour, double min, double max, double base) {
    const double turn = 2.0 * std::numbers::pi * (hour + 1.0 - kMiddayOfRise) / kHoursOfDay;
    return std::max(0.0, 0.5 * (min + max) + 0.5 * (max - min) * std::sin(turn) - base);
}

}  // namespace

double heat_units(HeatMethod method, double min, double max, double base, double top) {
    switch (method) {
        case HeatMethod::cut: return 0.5 * (std::clamp(min, base, top) + std::clamp(max, base, top)) - base;
        case HeatMethod::sine: return sine_above(base, min, max) - sine_above(top, min, max);
        case HeatMethod::mean: break;
    }
    return std::clamp(0.5 * (min + max), base, top) - base;
}

double heat_share_of_hour(int hour, double min, double max, double base) {
    double sum = 0.0;
    for (int h = 0; h < kHoursOfDay; ++h) sum += above_base_at(h, min, max, base);
    return sum > 0.0 ? above_base_at(hour, min, max, base) / sum : 1.0 / kHoursOfDay;
}

}  // namespace podrate::sim
