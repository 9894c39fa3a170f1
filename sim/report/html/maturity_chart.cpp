#include "report/html/maturity_chart.hpp"

#include <algorithm>
#include <cmath>

#include "day/local_time.hpp"
#include "log/number.hpp"
#include "report/html/markup.hpp"
#include "report/html/moment.hpp"

namespace podrate::sim {
namespace {

constexpr double kFieldChartWidth = 520;
constexpr double kFieldChartLeft = 40;
constexpr double kFieldChartRight = 10;
constexpr double kChartTop = 34;
constexpr double kChartFloor = 196;
constexpr double kQuarterDayS = 21600.0;
constexpr double kChartDayS = 86400.0;
constexpr int kSteps = 80;

// From when to when, and which readings.
struct ChartFrame {
    double first_s = 0.0;
    double last_s = 0.0;
    double low = 0.0;
    double high = 0.0;

    [[nodiscard]] double x(double unix_s) const {
        return kFieldChartLeft + (kFieldChartWidth - kFieldChartLeft - kFieldChartRight) *
                                     std::clamp((unix_s - first_s) / (last_s - first_s), 0.0, 1.0);
    }
    [[nodiscard]] double y(double points) const {
        return kChartFloor - (kChartFloor - kChartTop) * std::clamp((points - low) / (high - low), 0.0, 1.0);
    }
};

ChartFrame frame_of(const FieldMaturity& field, const DayResult& result) {
    ChartFrame frame;
    frame.first_s = field.now_s;
    frame.last_s = field.now_s + 2.0 * kChartDayS;
    for (const FieldMaturity& m : result.maturity) {
        frame.first_s = std::min(frame.first_s, m.ripening.readings().front().unix_s - kQuarterDayS);
        if (!m.leaves) continue;
        const double gone_s = std::min(m.leaves->high + kQuarterDayS, m.now_s + 7.0 * kChartDayS);
        frame.last_s = std::max(frame.last_s, gone_s);
    }
    frame.low = field.now.low;
    frame.high = field.ripening.at(frame.last_s).middle;
    for (const MaturityReading& r : field.ripening.readings()) {
        frame.low = std::min(frame.low, r.tenderometer);
        frame.high = std::max(frame.high, r.tenderometer);
    }
    if (field.window) {
        frame.low = std::min(frame.low, field.window->low);
        frame.high = std::max(frame.high, field.window->high + 5.0);
    }
    frame.low = std::floor((frame.low - 3.0) / 10.0) * 10.0;
    frame.high = std::max(frame.low + 20.0, std::ceil(frame.high / 10.0) * 10.0);
    return frame;
}

std::string line_svg(const char* kind, double x1, double y1, double x2, double y2) {
    return std::string("<line class=\"") + kind + "\" x1=\"" + fixed(x1, 1) + "\" y1=\"" + fixed(y1, 1) +
           "\" x2=\"" + fixed(x2, 1) + "\" y2=\"" + fixed(y2, 1) + "\"/>";
}

std::string text_svg(double x, double y, const char* anchor, const std::string& words) {
    return "<text class=\"over\" x=\"" + fixed(x, 1) + "\" y=\"" + fixed(y, 1) + "\" text-anchor=\"" +
           anchor + "\">" + escaped(words) + "</text>";
}

// Lines at local midnights with the date of the day that begins, and at round readings.
std::string grid_svg(const ChartFrame& frame, const std::string& zone) {
    std::string svg;
    const double days = (frame.last_s - frame.first_s) / kChartDayS;
    const long each = std::max(1L, std::lround(std::ceil(days / 8.0)));
    long midnight = 0;
    for (double at_s = std::ceil(frame.first_s / 3600.0) * 3600.0; at_s <= frame.last_s; at_s += 3600.0) {
        if (local_time(static_cast<TimeUs>(at_s) * kSecondUs, zone).second_of_day >= 3600) continue;
        svg += line_svg("grid", frame.x(at_s), kChartTop, frame.x(at_s), kChartFloor);
        if (midnight++ % each == 0)
            svg += text_svg(frame.x(at_s) + 3.0, kChartFloor + 16.0, "start", date_text(at_s, zone));
    }
    const double step = frame.high - frame.low > 60.0 ? 20.0 : 10.0;
    for (double points = frame.low; points <= frame.high + 1e-9; points += step) {
        svg += line_svg("grid", kFieldChartLeft, frame.y(points), kFieldChartWidth - kFieldChartRight,
                        frame.y(points));
        svg += text_svg(kFieldChartLeft - 6.0, frame.y(points) + 4.5, "end", fixed(points, 0));
    }
    return svg + '\n';
}

std::string window_svg(const ChartFrame& frame, const ReadingWindow& window) {
    const double top = frame.y(window.high);
    const double right = kFieldChartWidth - kFieldChartRight;
    std::string svg = "<rect class=\"window-band\" x=\"" + fixed(kFieldChartLeft, 1) + "\" y=\"" +
                      fixed(top, 1) + "\" width=\"" + fixed(right - kFieldChartLeft, 1) + "\" height=\"" +
                      fixed(frame.y(window.low) - top, 1) + "\"/>";
    svg += line_svg("window-edge", kFieldChartLeft, top, right, top);
    svg += line_svg("window-edge", kFieldChartLeft, frame.y(window.low), right, frame.y(window.low));
    return svg +
           text_svg(kFieldChartLeft + 6.0, top + 15.0, "start",
                    "window " + fixed(window.low, 0) + " to " + fixed(window.high, 0)) +
           '\n';
}

std::string belief_svg(const ChartFrame& frame, const FieldMaturity& field) {
    std::string upper;
    std::string lower;
    std::string so_far;
    std::string ahead;
    const double from_s = field.ripening.readings().front().unix_s;
    for (int i = 0; i <= kSteps; ++i) {
        const double at_s = from_s + (frame.last_s - from_s) * i / kSteps;
        const Believed reading = field.ripening.at(at_s);
        const std::string x = fixed(frame.x(at_s), 1) + ',';
        upper += (upper.empty() ? "M" : "L") + x + fixed(frame.y(reading.high), 1);
        lower.insert(0, 'L' + x + fixed(frame.y(reading.low), 1));
        if (reading.middle > frame.high) continue;
        std::string& line = at_s <= field.now_s ? so_far : ahead;
        if (&line == &ahead && ahead.empty() && !so_far.empty())
            ahead = 'M' + so_far.substr(so_far.rfind('L') + 1);
        line += (line.empty() ? "M" : "L") + x + fixed(frame.y(reading.middle), 1);
    }
    std::string svg = "<path class=\"belief-band\" d=\"" + upper + lower + "Z\"/>\n";
    if (!so_far.empty()) svg += "<path class=\"rate-line\" d=\"" + so_far + "\"/>\n";
    if (!ahead.empty()) svg += "<path class=\"belief-ahead\" d=\"" + ahead + "\"/>\n";
    return svg;
}

// From when to when it may come to an edge of the window, with a tick where it is likely.
std::string crossing_svg(const ChartFrame& frame, const Believed& when, double points, const char* words) {
    if (when.middle < frame.first_s || when.low > frame.last_s) return {};
    const double y = frame.y(points);
    const double middle = frame.x(when.middle);
    std::string svg = line_svg("crossing", frame.x(when.low), y, frame.x(when.high), y);
    if (when.middle <= frame.last_s) svg += line_svg("crossing-tick", middle, y - 7.0, middle, y + 7.0);
    return svg + text_svg(middle + 6.0, y + 17.0, "start", words);
}

}  // namespace

std::string maturity_svg(const FieldMaturity& field, const Day& day, const DayResult& result) {
    const ChartFrame frame = frame_of(field, result);
    std::string svg = "<svg viewBox=\"0 0 " + fixed(kFieldChartWidth, 0) + " 222\" role=\"img\"><title>" +
                      escaped("Readings of " + field.field) + "</title>\n<text class=\"strong\" x=\"" +
                      fixed(kFieldChartLeft, 0) + "\" y=\"21\">" + escaped(field.field) + "</text>" +
                      text_svg(kFieldChartWidth - kFieldChartRight, 21.0, "end", "points");
    if (field.window) svg += window_svg(frame, *field.window);
    svg += grid_svg(frame, day.time_zone) + belief_svg(frame, field);
    if (field.window) {
        svg += text_svg(kFieldChartLeft + 6.0, frame.y(field.window->high) + 15.0, "start",
                        "window " + fixed(field.window->low, 0) + " to " + fixed(field.window->high, 0));
    }
    if (field.window && field.enters) svg += crossing_svg(frame, *field.enters, field.window->low, "enters");
    if (field.window && field.leaves) svg += crossing_svg(frame, *field.leaves, field.window->high, "leaves");
    const double now = frame.x(field.now_s);
    svg += line_svg("now-line", now, kChartTop, now, kChartFloor) +
           text_svg(now - 4.0, kChartTop + 12.0, "end", "now");
    for (const MaturityReading& r : field.ripening.readings()) {
        svg += "<circle class=\"reading\" cx=\"" + fixed(frame.x(r.unix_s), 1) + "\" cy=\"" +
               fixed(frame.y(r.tenderometer), 1) + "\" r=\"4\"/>";
    }
    return svg + "</svg>\n";
}

}  // namespace podrate::sim
