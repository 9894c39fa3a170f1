#include "series/axis_ticks.hpp"

#include <algorithm>
#include <cmath>

#include "day/local_time.hpp"

namespace podrate::ui {
namespace {

constexpr int kMinuteS = 60;
constexpr int kHourS = 3600;
constexpr int kTenths[] = {1, 2, 5};
constexpr int kSteps[] = {1,
                          2,
                          5,
                          10,
                          15,
                          30,
                          kMinuteS,
                          2 * kMinuteS,
                          5 * kMinuteS,
                          10 * kMinuteS,
                          15 * kMinuteS,
                          30 * kMinuteS,
                          kHourS,
                          2 * kHourS,
                          3 * kHourS,
                          6 * kHourS,
                          12 * kHourS,
                          24 * kHourS};

std::string label_of(const sim::LocalTime& local, int step_s) {
    return step_s < kMinuteS ? local.hh_mm() + ':' + local.ss() : local.hh_mm();
}

std::vector<TimeTick> ticks_of_tenths(const TimeRange& range, TimeUs origin_us, const std::string& time_zone,
                                      int step_tenths) {
    constexpr TimeUs kTenthUs = kSecondUs / 10;
    std::vector<TimeTick> ticks;
    const TimeUs step_us = step_tenths * kTenthUs;
    const TimeUs end_us = origin_us + static_cast<TimeUs>(std::ceil(range.to_ms * 1000.0));
    TimeUs at_us = origin_us + static_cast<TimeUs>(std::ceil(range.from_ms * 1000.0));
    at_us += (step_us - at_us % step_us) % step_us;
    for (; at_us < end_us; at_us += step_us) {
        const auto tenth = static_cast<char>('0' + at_us / kTenthUs % 10);
        ticks.push_back({static_cast<double>(at_us - origin_us) / 1000.0,
                         label_of(sim::local_time(at_us, time_zone), 1) + '.' + tenth});
    }
    return ticks;
}

// The first round time of the local clock after `at_us`, a whole second.
TimeUs next_round(TimeUs at_us, const std::string& time_zone, int step_s) {
    const auto past_s = [&](TimeUs t) { return sim::local_time(t, time_zone).second_of_day % step_s; };
    const TimeUs due_us = at_us + (step_s - past_s(at_us)) * kSecondUs;
    const int off_s = past_s(due_us);
    if (off_s == 0) return due_us;
    // The clock was put forward or back in between.
    const TimeUs sooner_us = due_us - off_s * kSecondUs;
    if (sooner_us > at_us && past_s(sooner_us) == 0) return sooner_us;
    return due_us + (step_s - off_s) * kSecondUs;
}

}  // namespace

std::vector<TimeTick> time_ticks(const TimeRange& range, TimeUs origin_us, const std::string& time_zone,
                                 int most) {
    const double span_s = range.span_ms() / 1000.0;
    for (const int tenths : kTenths) {
        if (span_s * 10.0 / tenths < most) return ticks_of_tenths(range, origin_us, time_zone, tenths);
    }
    int step_s = kSteps[std::size(kSteps) - 1];
    for (const int step : kSteps) {
        if (span_s / step >= most) continue;
        step_s = step;
        break;
    }
    std::vector<TimeTick> ticks;
    const TimeUs from_us = origin_us + static_cast<TimeUs>(std::ceil(range.from_ms * 1000.0));
    const TimeUs end_us = origin_us + static_cast<TimeUs>(std::ceil(range.to_ms * 1000.0));
    TimeUs at_us = next_round((from_us - 1) / kSecondUs * kSecondUs, time_zone, step_s);
    while (at_us < end_us && static_cast<int>(ticks.size()) < most) {
        ticks.push_back({static_cast<double>(at_us - origin_us) / 1000.0,
                         label_of(sim::local_time(at_us, time_zone), step_s)});
        at_us = next_round(at_us, time_zone, step_s);
    }
    return ticks;
}

TimeAxis time_axis(const TimeWindow& window, TimeUs origin_us, const std::string& time_zone, int most) {
    TimeAxis axis{time_ticks(window.shown(), origin_us, time_zone, most), ""};
    if (window.cursor_ms()) {
        const TimeUs at_us = origin_us + static_cast<TimeUs>(*window.cursor_ms() * 1000.0);
        axis.cursor_label = label_of(sim::local_time(at_us, time_zone), 1);
    }
    return axis;
}

int ValueAxis::ticks() const {
    return static_cast<int>(std::lround((high - low) / step)) + 1;
}

ValueAxis value_axis(const Extent& values, bool from_zero, double least, int most) {
    double low = values.empty() ? 0.0 : static_cast<double>(values.low);
    double high = values.empty() ? 0.0 : static_cast<double>(values.high);
    if (from_zero) {
        low = std::min(low, 0.0);
        high = std::max(high, 0.0);
    }
    // Nor finer than float tells apart.
    const double missing = std::max({least, 1e-5 * std::abs(low), 1e-5 * std::abs(high)}) - (high - low);
    if (missing > 0.0 && from_zero) {
        high += missing;
    } else if (missing > 0.0) {
        low -= missing / 2;
        high += missing / 2;
    }
    ValueAxis axis;
    double power = std::pow(10.0, std::floor(std::log10((high - low) / most)));
    int exponent = static_cast<int>(std::floor(std::log10((high - low) / most)));
    for (;; power *= 10.0, ++exponent) {
        for (const int digit : {1, 2, 5}) {
            axis.step = digit * power;
            axis.low = std::floor(low / axis.step) * axis.step;
            axis.high = std::ceil(high / axis.step) * axis.step;
            axis.decimals = std::max(0, -exponent);
            if (axis.ticks() <= most) return axis;
        }
    }
}

}  // namespace podrate::ui
