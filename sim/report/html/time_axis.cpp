#include "report/html/time_axis.hpp"

#include <algorithm>
#include <cmath>

#include "day/local_time.hpp"
#include "log/number.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {

TimeAxis::TimeAxis(const std::string& time_zone, TimeUs first_us, TimeUs last_us)
    : zone_(time_zone),
      first_s_(static_cast<double>(first_us) / 1e6),
      last_s_(std::max(first_s_ + 60.0, static_cast<double>(last_us) / 1e6)) {}

double TimeAxis::x(double unix_s) const {
    return kChartLeft + (kChartWidth - kChartLeft - kChartRight) *
                            std::clamp((unix_s - first_s_) / (last_s_ - first_s_), 0.0, 1.0);
}

std::string TimeAxis::marks(double top, double bottom) const {
    static constexpr double kSteps[] = {300, 600, 900, 1800, 3600, 7200, 14400};
    double step = std::ceil((last_s_ - first_s_) / 12 / 86400) * 86400;
    for (const double candidate : kSteps) {
        if ((last_s_ - first_s_) / candidate > 14) continue;
        step = candidate;
        break;
    }
    std::string svg;
    for (double at = std::ceil(first_s_ / step) * step; at <= last_s_; at += step) {
        const std::string px = fixed(x(at), 1);
        const bool at_edge = x(at) > kChartWidth - 20;  // half of a label would be cut
        const LocalTime clock = local_time(static_cast<TimeUs>(at * 1e6), zone_);
        svg += "<line class=\"grid\" x1=\"" + px + "\" x2=\"" + px + "\" y1=\"" + fixed(top, 0) + "\" y2=\"" +
               fixed(bottom, 0) + "\"/><text x=\"" + px + "\" y=\"" + fixed(bottom + 16, 0) +
               (at_edge ? "\" text-anchor=\"end\">" : "\" text-anchor=\"middle\">") + clock.hh_mm() +
               "</text>";
    }
    return svg;
}

std::string open_svg(double height, const std::string& title) {
    return "<div class=\"chart\"><svg viewBox=\"0 0 " + fixed(kChartWidth, 0) + " " + fixed(height, 0) +
           "\" role=\"img\"><title>" + escaped(title) + "</title>\n";
}

std::string level_line(double y, const std::string& label) {
    return "<line class=\"grid\" x1=\"" + fixed(kChartLeft, 0) + "\" x2=\"" +
           fixed(kChartWidth - kChartRight, 0) + "\" y1=\"" + fixed(y, 1) + "\" y2=\"" + fixed(y, 1) +
           "\"/><text x=\"" + fixed(kChartLeft - 6, 0) + "\" y=\"" + fixed(y + 4.5, 1) +
           "\" text-anchor=\"end\">" + label + "</text>";
}

double round_step(double least) {
    double step = 1.0;
    for (int i = 0; i < 12 && step < least; ++i) step *= i % 3 == 1 ? 2.5 : 2.0;
    return step;
}

}  // namespace podrate::sim
