#include "report/tuning/operating_chart.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "log/number.hpp"
#include "report/alarm_summary.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

constexpr double kPlotWidth = 520;
constexpr double kPlotHeight = 350;
constexpr double kPlotLeft = 52;
constexpr double kPlotRight = 504;
constexpr double kPlotCeiling = 44;
constexpr double kPlotBottom = 292;

std::string mark_svg(const char* shape, double x, double y) {
    const auto at = [&](double dx, double dy) { return fixed(x + dx, 1) + "," + fixed(y + dy, 1); };
    const std::string name = shape;
    if (name == "any-setting")
        return "<circle class=\"any-setting\" cx=\"" + fixed(x, 1) + "\" cy=\"" + fixed(y, 1) +
               "\" r=\"3\"/>";
    std::string path;
    if (name == "unbeaten")
        path = "M" + at(0, -5.5) + "L" + at(5.5, 0) + "L" + at(0, 5.5) + "L" + at(-5.5, 0);
    if (name == "as-it-was") path = "M" + at(-6, -6) + "L" + at(6, -6) + "L" + at(6, 6) + "L" + at(-6, 6);
    if (name == "to-set") path = "M" + at(0, -9) + "L" + at(8.5, 7) + "L" + at(-8.5, 7);
    return "<path class=\"" + name + "\" d=\"" + path + "Z\"/>";
}

// False alarms an hour from left to right, by square root: few are what matters, and none has a place.
class FalseAxis {
  public:
    explicit FalseAxis(double most) : most_(std::max(most, 0.1)) {}
    [[nodiscard]] double x(double per_h) const {
        return kPlotLeft + (kPlotRight - kPlotLeft) * std::sqrt(std::clamp(per_h / most_, 0.0, 1.0));
    }
    [[nodiscard]] std::string marks() const {
        std::string svg;
        double last = -100.0;
        for (const double per_h :
             {0.0, 0.02, 0.05, 0.1, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0, 120.0}) {
            if (per_h > most_ || x(per_h) - last < 44.0) continue;
            last = x(per_h);
            svg += svg_line("grid", last, kPlotCeiling, last, kPlotBottom) +
                   svg_words(last, kPlotBottom + 18, "middle", shown(per_h));
        }
        return svg + svg_words(0.5 * (kPlotLeft + kPlotRight), kPlotBottom + 40, "middle",
                               "false alarms an hour (spaced by square root)");
    }

  private:
    double most_;
};

// A scale upwards in even steps.
class UpAxis {
  public:
    UpAxis(double low, double high, double step) : low_(low), high_(high), step_(step) {}
    [[nodiscard]] double y(double value) const {
        return kPlotBottom -
               (kPlotBottom - kPlotCeiling) * std::clamp((value - low_) / (high_ - low_), 0.0, 1.0);
    }
    [[nodiscard]] std::string marks() const {
        std::string svg;
        for (double value = low_; value <= high_ + 1e-9 * step_; value += step_) {
            svg += svg_line("grid", kPlotLeft, y(value), kPlotRight, y(value)) +
                   svg_words(kPlotLeft - 7, y(value) + 4.5, "end", shown(value));
        }
        return svg;
    }

  private:
    double low_;
    double high_;
    double step_;
};

UpAxis percent_axis(const std::vector<AlarmFigures>& figures) {
    double low = 90.0;
    for (const AlarmFigures& f : figures) {
        const double percent = 100.0 * of(f, AlarmFigure::detection);
        if (percent < low) low = percent;
    }
    const double step = low >= 75.0 ? 5.0 : (low >= 50.0 ? 10.0 : 20.0);
    return {step * std::floor(low / step), 100.0, step};
}

UpAxis seconds_axis(const std::vector<AlarmFigures>& figures) {
    double high = 4.0;
    for (const AlarmFigures& f : figures) {
        const double delay = of(f, AlarmFigure::delay_median_s);
        if (delay > high) high = delay;
    }
    double step = 1.0;
    for (const double wanted : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}) {
        step = wanted;
        if (high / wanted <= 6.0) break;
    }
    return {0.0, step * std::ceil(high / step), step};
}

struct Chart {
    const AlarmConclusion& alarm;
    const TuningChoice& choice;
    AlarmFigure up;
    double scale;  // of the figure on the axis
    FalseAxis across;
    UpAxis upwards;

    [[nodiscard]] double x(std::size_t setting) const {
        return across.x(of(alarm.figures[setting], AlarmFigure::false_per_h));
    }
    [[nodiscard]] double y(std::size_t setting) const {
        return upwards.y(scale * of(alarm.figures[setting], up));
    }
    [[nodiscard]] bool has_place(std::size_t setting) const {
        return !std::isnan(of(alarm.figures[setting], AlarmFigure::false_per_h)) &&
               !std::isnan(of(alarm.figures[setting], up));
    }
    [[nodiscard]] std::string whiskers(std::size_t setting) const {
        const Range& side = alarm.ranges[setting][static_cast<std::size_t>(AlarmFigure::false_per_h)];
        const Range& height = alarm.ranges[setting][static_cast<std::size_t>(up)];
        std::string svg;
        if (side.known())
            svg += svg_line("whisker", across.x(side.low), y(setting), across.x(side.high), y(setting));
        if (height.known())
            svg += svg_line("whisker", x(setting), upwards.y(scale * height.low), x(setting),
                            upwards.y(scale * height.high));
        return svg;
    }
    [[nodiscard]] std::string label(std::size_t setting, const char* words, double rise) const {
        const bool to_left = x(setting) > 0.5 * (kPlotLeft + kPlotRight);
        const double level = std::clamp(y(setting) + rise, kPlotCeiling + 14.0, kPlotBottom - 6.0);
        return svg_words(x(setting) + (to_left ? -13.0 : 13.0), level, to_left ? "end" : "start", words,
                         "strong over");
    }
    // All settings, then those that count, so that these lie on top.
    [[nodiscard]] std::string marks() const {
        std::string svg;
        for (const bool is_unbeaten : {false, true}) {
            std::set<std::string> seen;  // settings that say the same of this alarm have one mark
            for (std::size_t s = 0; s < alarm.figures.size(); ++s) {
                if (!has_place(s) || alarm.unbeaten[s] != is_unbeaten) continue;
                seen.insert(mark_svg(is_unbeaten ? "unbeaten" : "any-setting", x(s), y(s)));
            }
            for (const std::string& mark : seen) svg += mark;
        }
        const std::size_t set = choice.chosen.setting;
        if (has_place(0)) svg += whiskers(0) + mark_svg("as-it-was", x(0), y(0));
        if (set != 0 && has_place(set)) svg += whiskers(set) + mark_svg("to-set", x(set), y(set));
        if (set == 0) return has_place(0) ? svg + label(0, "as it was, kept", 20.0) : svg;
        const bool near = has_place(0) && has_place(set) && std::abs(y(0) - y(set)) < 30.0;
        const bool set_is_higher = near && y(set) < y(0);
        const std::size_t upper = set_is_higher ? set : 0;
        const bool room_above = has_place(upper) && y(upper) - kPlotCeiling > 26.0;
        const double upper_rise = near && room_above ? -10.0 : 20.0;
        const double lower_rise = near && !room_above ? 39.0 : 20.0;
        if (has_place(0)) svg += label(0, "as it was", set_is_higher ? lower_rise : upper_rise);
        if (has_place(set)) svg += label(set, "recommended", set_is_higher ? upper_rise : lower_rise);
        return svg;
    }
};

FalseAxis false_axis(const AlarmConclusion& alarm, const TuningOptions& options) {
    double most = 1.5 * options.most_false_per_h;
    for (const AlarmFigures& f : alarm.figures) {
        const double per_h = of(f, AlarmFigure::false_per_h);
        if (per_h > most) most = per_h;
    }
    return FalseAxis(1.05 * most);
}

std::string open_chart(const AlarmConclusion& alarm, const std::string& what) {
    const std::string name = words_for(static_cast<AlarmId>(alarm.alarm));
    return "<svg viewBox=\"0 0 " + fixed(kPlotWidth, 0) + " " + fixed(kPlotHeight, 0) +
           "\" role=\"img\"><title>" + escaped(what + ", " + name) + "</title>\n" +
           svg_words(kPlotLeft, 26, "start", what, "strong") + "\n";
}

// Where a setting would meet what is asked.
std::string asked_svg(double right, double top, double bottom) {
    return "<rect class=\"asked\" x=\"" + fixed(kPlotLeft, 1) + "\" y=\"" + fixed(top, 1) + "\" width=\"" +
           fixed(right - kPlotLeft, 1) + "\" height=\"" + fixed(bottom - top, 1) + "\"/>";
}

// The most that is told with so many false alarms or fewer.
std::string best_line(const Chart& chart) {
    std::vector<std::size_t> order;
    for (std::size_t s = 0; s < chart.alarm.figures.size(); ++s) {
        if (chart.has_place(s)) order.push_back(s);
    }
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return chart.x(a) != chart.x(b) ? chart.x(a) < chart.x(b) : chart.y(a) < chart.y(b);
    });
    std::string path;
    double level = 0.0;
    for (const std::size_t s : order) {
        if (!path.empty() && chart.y(s) >= level) continue;
        path += path.empty() ? "M" + fixed(chart.x(s), 1) + "," + fixed(chart.y(s), 1)
                             : "H" + fixed(chart.x(s), 1) + "V" + fixed(chart.y(s), 1);
        level = chart.y(s);
    }
    return path.empty() ? path
                        : "<path class=\"best-line\" d=\"" + path + "H" + fixed(kPlotRight, 1) + "\"/>";
}

}  // namespace

std::string detection_chart_svg(const AlarmConclusion& alarm, const TuningChoice& choice) {
    const Chart chart{alarm,
                      choice,
                      AlarmFigure::detection,
                      100.0,
                      false_axis(alarm, choice.options),
                      percent_axis(alarm.figures)};
    return open_chart(alarm, "told, % of what was to be told") + chart.across.marks() +
           chart.upwards.marks() +
           asked_svg(chart.across.x(choice.options.most_false_per_h), kPlotCeiling,
                     chart.upwards.y(100.0 * choice.options.least_detection)) +
           best_line(chart) + chart.marks() + "</svg>\n";
}

std::string delay_chart_svg(const AlarmConclusion& alarm, const TuningChoice& choice) {
    const Chart chart{alarm,
                      choice,
                      AlarmFigure::delay_median_s,
                      1.0,
                      false_axis(alarm, choice.options),
                      seconds_axis(alarm.figures)};
    return open_chart(alarm, "median delay of those told, s") + chart.across.marks() + chart.upwards.marks() +
           asked_svg(chart.across.x(choice.options.most_false_per_h), kPlotCeiling, kPlotBottom) +
           chart.marks() + "</svg>\n";
}

std::string operating_legend_html(const TuningChoice& choice) {
    const auto entry = [](const std::string& shape, const char* words) {
        return "<span><svg viewBox=\"0 0 22 20\" "
               "style=\"height:20px;border:0;background:none;vertical-align:-5px\">" +
               shape + "</svg>" + words + "</span>";
    };
    return "<p class=\"legend quiet\">" + entry(mark_svg("as-it-was", 11, 10), "as it was") +
           (choice.chosen.setting != 0 ? entry(mark_svg("to-set", 11, 11), "recommended") : std::string()) +
           entry(mark_svg("unbeaten", 11, 10), "no other is better in all of told, false alarms and delay") +
           entry(mark_svg("any-setting", 11, 10), "other settings") +
           entry("<rect class=\"asked\" x=\"1\" y=\"2\" width=\"20\" height=\"16\"/>", "what is asked") +
           entry(svg_line("whisker", 2, 10, 20, 10), "range, 9 times in 10") + "</p>\n";
}

}  // namespace podrate::sim
