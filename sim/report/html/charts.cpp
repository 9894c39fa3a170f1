#include "report/html/charts.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "day/local_time.hpp"
#include "log/number.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

constexpr double kWidth = 1040;
constexpr double kLeft = 52;
constexpr double kRight = 16;

// Time on the horizontal axis, shared by all drawings of a page.
class TimeAxis {
  public:
    TimeAxis(const Day& day, const DayResult& result)
        : zone_(day.time_zone),
          first_s_(static_cast<double>(result.first_us) / 1e6),
          last_s_(std::max(first_s_ + 60.0, static_cast<double>(result.last_us) / 1e6)) {}

    [[nodiscard]] double x(double unix_s) const {
        return kLeft +
               (kWidth - kLeft - kRight) * std::clamp((unix_s - first_s_) / (last_s_ - first_s_), 0.0, 1.0);
    }
    [[nodiscard]] double first_s() const { return first_s_; }
    [[nodiscard]] double last_s() const { return last_s_; }

    // Hour lines (or finer on a short day) from `top` to `bottom`, with the clock below.
    [[nodiscard]] std::string marks(double top, double bottom) const {
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
            const LocalTime clock = local_time(static_cast<TimeUs>(at * 1e6), zone_);
            svg += "<line class=\"grid\" x1=\"" + px + "\" x2=\"" + px + "\" y1=\"" + fixed(top, 0) +
                   "\" y2=\"" + fixed(bottom, 0) + "\"/><text x=\"" + px + "\" y=\"" + fixed(bottom + 16, 0) +
                   "\" text-anchor=\"middle\">" + clock.hh_mm() + "</text>";
        }
        return svg;
    }

  private:
    std::string zone_;
    double first_s_;
    double last_s_;
};

std::string open_svg(double height, const std::string& title) {
    return "<div class=\"chart\"><svg viewBox=\"0 0 " + fixed(kWidth, 0) + " " + fixed(height, 0) +
           "\" role=\"img\"><title>" + escaped(title) + "</title>\n";
}

std::string level_line(double y, const std::string& label) {
    return "<line class=\"grid\" x1=\"" + fixed(kLeft, 0) + "\" x2=\"" + fixed(kWidth - kRight, 0) +
           "\" y1=\"" + fixed(y, 1) + "\" y2=\"" + fixed(y, 1) + "\"/><text x=\"" + fixed(kLeft - 6, 0) +
           "\" y=\"" + fixed(y + 4.5, 1) + "\" text-anchor=\"end\">" + label + "</text>";
}

// 1, 2 or 5 times a power of ten, not below `least`.
double round_step(double least) {
    double step = 1.0;
    for (int i = 0; i < 12 && step < least; ++i) step *= i % 3 == 1 ? 2.5 : 2.0;
    return step;
}

double end_of(const Minute& minute) {
    return static_cast<double>(minute.minute + 1) * 60.0;
}

// t/h over a minute, from what the machine had harvested at its ends; minutes next to each other only.
struct MinuteRate {
    double from_s;
    double to_s;
    double tph;
};

std::vector<MinuteRate> minute_rates(const MachineResult& machine) {
    std::vector<MinuteRate> rates;
    for (std::size_t i = 1; i < machine.minutes.size(); ++i) {
        const Minute& before = machine.minutes[i - 1];
        const Minute& now = machine.minutes[i];
        if (now.minute != before.minute + 1) continue;
        const double tph = std::max(0.0, (now.harvested_kg - before.harvested_kg) * 60.0 / 1000.0);
        rates.push_back({end_of(before), end_of(now), tph});
    }
    return rates;
}

std::string rate_paths(const std::vector<MinuteRate>& rates, const TimeAxis& time,
                       const std::function<double(double)>& y) {
    std::string area;
    std::string line;
    double last_s = -1.0;
    for (const MinuteRate& rate : rates) {
        const std::string x0 = fixed(time.x(rate.from_s), 1);
        const std::string x1 = fixed(time.x(rate.to_s), 1);
        const std::string level = fixed(y(rate.tph), 1);
        const std::string floor = fixed(y(0.0), 1);
        area += "M" + x0 + "," + floor + "L" + x0 + "," + level + "L" + x1 + "," + level + "L" + x1 + "," +
                floor + "Z";
        line += (rate.from_s == last_s ? "L" : "M") + x0 + "," + level + "L" + x1 + "," + level;
        last_s = rate.to_s;
    }
    return "<path class=\"rate-area\" d=\"" + area + "\"/>\n<path class=\"rate-line\" d=\"" + line + "\"/>\n";
}

std::string state_strip(const MachineResult& machine, const TimeAxis& time, double y, double height) {
    std::string svg;
    for (std::size_t i = 0; i < machine.minutes.size();) {
        std::size_t end = i + 1;
        while (end < machine.minutes.size() && machine.minutes[end].state == machine.minutes[i].state &&
               machine.minutes[end].minute == machine.minutes[end - 1].minute + 1) {
            ++end;
        }
        const double x0 = time.x(static_cast<double>(machine.minutes[i].minute) * 60.0);
        const double x1 = time.x(end_of(machine.minutes[end - 1]));
        svg += std::string("<rect class=\"") + name_of(machine.minutes[i].state) + "\" x=\"" + fixed(x0, 1) +
               "\" y=\"" + fixed(y, 1) + "\" width=\"" + fixed(x1 - x0, 1) + "\" height=\"" +
               fixed(height, 1) + "\"/>";
        i = end;
    }
    return svg + "\n";
}

}  // namespace

std::string machine_timeline_svg(const MachineResult& machine, const Day& day, const DayResult& result) {
    const TimeAxis time(day, result);
    const std::vector<MinuteRate> rates = minute_rates(machine);
    double top_tph = 4.0;
    for (const MinuteRate& rate : rates) top_tph = std::max(top_tph, rate.tph);
    top_tph = std::ceil(top_tph / 2.0) * 2.0;
    constexpr double kTop = 34;
    constexpr double kFloor = 146;
    const auto y = [top_tph](double tph) { return kFloor - (kFloor - kTop) * std::min(tph / top_tph, 1.0); };
    std::string svg = open_svg(198, "Load rate of " + machine.id);
    svg += "<text class=\"strong\" x=\"" + fixed(kLeft, 0) + "\" y=\"21\">" + escaped(machine.id) +
           "</text><text x=\"" + fixed(kWidth - kRight, 0) +
           "\" y=\"21\" text-anchor=\"end\">load rate, t/h, by the minute; ticks: tips</text>";
    svg += time.marks(kTop, 176);
    for (const double share : {0.0, 0.5, 1.0})
        svg += level_line(y(share * top_tph), fixed(share * top_tph, 0));
    svg += rate_paths(rates, time, y);
    svg += state_strip(machine, time, 154, 18);
    for (const Load& load : machine.loads) {
        const std::string x = fixed(time.x(static_cast<double>(load.end_us) / 1e6), 1);
        svg += "<line class=\"tip-mark\" x1=\"" + x + "\" x2=\"" + x + "\" y1=\"" + fixed(kTop, 0) +
               "\" y2=\"46\"/>";
    }
    return svg + "</svg></div>\n";
}

std::string plan_svg(const Day& day, const DayResult& result) {
    if (day.intake_plan.empty()) return {};
    const TimeAxis time(day, result);
    constexpr double kTop = 34;
    constexpr double kFloor = 236;
    double top_t = std::max(result.harvested_t, result.planned_t.value_or(0.0));
    const double step_t = round_step(top_t / 5);
    top_t = std::max(step_t, std::ceil(top_t / step_t) * step_t);
    const auto y = [top_t](double t) { return kFloor - (kFloor - kTop) * std::clamp(t / top_t, 0.0, 1.0); };
    std::string svg = open_svg(266, "Harvested against plan");
    svg += "<text class=\"strong\" x=\"" + fixed(kLeft, 0) + "\" y=\"21\">All machines, t</text><text x=\"" +
           fixed(kWidth - kRight, 0) +
           "\" y=\"21\" text-anchor=\"end\">solid: harvested; dashed: the factory's plan</text>";
    svg += time.marks(kTop, kFloor);
    for (double t = 0.0; t <= top_t + 1e-9; t += step_t) svg += level_line(y(t), fixed(t, 0));
    std::string plan;
    std::string sum;
    std::vector<std::size_t> next(result.machines.size(), 0);
    const auto first_minute = static_cast<std::int64_t>(time.first_s() / 60.0);
    const auto last_minute = static_cast<std::int64_t>(time.last_s() / 60.0);
    const std::int64_t stride = std::max<std::int64_t>(1, (last_minute - first_minute) / 2000);
    for (std::int64_t minute = first_minute; minute <= last_minute; minute += stride) {
        double kg = 0.0;
        for (std::size_t i = 0; i < result.machines.size(); ++i) {
            const std::vector<Minute>& minutes = result.machines[i].minutes;
            while (next[i] < minutes.size() && minutes[next[i]].minute <= minute) ++next[i];
            if (next[i] > 0) kg += minutes[next[i] - 1].harvested_kg;
        }
        const double at_s = std::min(static_cast<double>(minute + 1) * 60.0, time.last_s());
        const std::string x = fixed(time.x(at_s), 1) + ",";
        sum += (sum.empty() ? "M" : "L") + x + fixed(y(kg / 1e3), 1);
        plan +=
            (plan.empty() ? "M" : "L") + x + fixed(y(planned_t_at(day.intake_plan, at_s).value_or(0.0)), 1);
    }
    return svg + "<path class=\"plan-line\" d=\"" + plan + "\"/>\n<path class=\"sum-line\" d=\"" + sum +
           "\"/>\n</svg></div>\n";
}

std::string pattern_definitions_svg() {
    return R"svg(<svg width="0" height="0" style="position:absolute;border:0"><defs>
<pattern id="wait" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="hatch" x1="2" y1="0" x2="2" y2="8"/></pattern>
<pattern id="stop" width="6" height="6" patternUnits="userSpaceOnUse"><rect class="solid-stand" width="6" height="6"/></pattern>
<pattern id="pause" width="7" height="7" patternUnits="userSpaceOnUse"><circle class="dots" cx="3" cy="3" r="2"/></pattern>
</defs></svg>
)svg";
}

std::string state_legend_html() {
    static constexpr struct {
        WorkState state;
        const char* words;
    } kEntries[] = {{WorkState::harvesting, "harvesting"},
                    {WorkState::turning, "turning, travelling"},
                    {WorkState::paused_in_crop, "paused in crop"},
                    {WorkState::waiting, "waiting to tip"},
                    {WorkState::tipping, "tipping"},
                    {WorkState::stopped, "stopped"}};
    std::string html = "<p class=\"legend quiet\">";
    for (const auto& entry : kEntries) {
        html += std::string("<span><svg viewBox=\"0 0 22 12\"><rect class=\"") + name_of(entry.state) +
                "\" width=\"22\" height=\"12\"/></svg>" + entry.words + "</span>";
    }
    return html + "</p>\n";
}

}  // namespace podrate::sim
