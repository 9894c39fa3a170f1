#include "report/html/charts.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "log/number.hpp"
#include "report/html/markup.hpp"
#include "report/html/time_axis.hpp"

namespace podrate::sim {
namespace {

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
    const TimeAxis time(day.time_zone, result.first_us, result.last_us);
    const std::vector<MinuteRate> rates = minute_rates(machine);
    double top_tph = 4.0;
    for (const MinuteRate& rate : rates) top_tph = std::max(top_tph, rate.tph);
    top_tph = std::ceil(top_tph / 2.0) * 2.0;
    constexpr double kTop = 34;
    constexpr double kFloor = 146;
    const auto y = [top_tph](double tph) { return kFloor - (kFloor - kTop) * std::min(tph / top_tph, 1.0); };
    std::string svg = open_svg(198, "Load rate of " + machine.id);
    svg += "<text class=\"strong\" x=\"" + fixed(kChartLeft, 0) + "\" y=\"21\">" + escaped(machine.id) +
           "</text><text x=\"" + fixed(kChartWidth - kChartRight, 0) +
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
