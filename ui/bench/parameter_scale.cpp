#include "bench/parameter_scale.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "tune/alarm_trace.hpp"

namespace podrate::ui {
namespace {

constexpr double kCrowdedShare = 0.05;  // usual values nearer to the least than that are spread
constexpr double kSpread = 4.0;
constexpr int kValuesAlong = 41;

double spread_of(const ParameterInfo& info) {
    const double usual = (info.value - info.low) / (info.high - info.low);
    if (usual > 0.0) return usual < kCrowdedShare ? kSpread : 1.0;
    return std::string(info.unit) == "s" ? kSpread : 1.0;
}

}  // namespace

double share_of_range(const ParameterInfo& info, double value) {
    const double even = std::clamp((value - info.low) / (info.high - info.low), 0.0, 1.0);
    return std::pow(even, 1.0 / spread_of(info));
}

double value_at_share(const ParameterInfo& info, double share) {
    const double step = std::pow(10.0, -info.decimals);
    const double even = std::pow(std::clamp(share, 0.0, 1.0), spread_of(info));
    const double wanted = info.low + even * (info.high - info.low);
    return std::clamp(step * std::round(wanted / step), info.low, info.high);
}

std::vector<double> values_along(const ParameterInfo& info) {
    std::vector<double> values;
    for (int i = 0; i < kValuesAlong; ++i) {
        const double value = value_at_share(info, static_cast<double>(i) / (kValuesAlong - 1));
        if (values.empty() || value > values.back()) values.push_back(value);
    }
    return values;
}

std::optional<AlarmId> alarm_set_by(const ParameterInfo& info) {
    std::optional<AlarmId> only;
    for (int i = 0; i < kAlarms; ++i) {
        const auto alarm = static_cast<AlarmId>(i);
        if (!sim::touches_alarm(info, alarm)) continue;
        if (only) return std::nullopt;
        only = alarm;
    }
    return only;
}

}  // namespace podrate::ui
