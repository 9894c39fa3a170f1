#include "report/html/plan_chart.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "log/number.hpp"
#include "plan/gang_books.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/markup.hpp"
#include "report/html/time_axis.hpp"

namespace podrate::sim {
namespace {

constexpr double kTopY = 34;
constexpr double kFloorY = 296;
constexpr TimeUs kMinuteUsLong = 60 * kSecondUs;
constexpr TimeUs kMostPoints = 1500;
constexpr TimeUs kRowUs = 900 * kSecondUs;
constexpr TimeUs kMostTableRows = 120;

struct GangMoment {
    double delivered_t = 0.0;
    double in_hoppers_t = 0.0;
};

GangMoment gang_at(const DayResult& result, TimeUs time_us) {
    GangMoment at;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        at.delivered_t += delivered_kg_by(m.minutes, time_us) / 1e3;
        at.in_hoppers_t += hopper_kg_at(m.minutes, time_us) / 1e3;
    }
    return at;
}

double planned_at(const Day& day, TimeUs time_us) {
    return planned_t_at(day.intake_plan, static_cast<double>(time_us) / 1e6).value_or(0.0);
}

TimeUs chart_end_us(const DayResult& result) {
    return result.forecast ? result.forecast->end_us : end_of_books_us(result);
}

// Moments from the first row to `end_us`, even, no more than so many.
TimeUs even_step_us(TimeUs span_us, TimeUs least_us, TimeUs most) {
    return least_us * std::max<TimeUs>(1, (span_us / least_us + most - 1) / most);
}

class PlanDrawing {
  public:
    PlanDrawing(const Day& day, const DayResult& result)
        : day_(day),
          result_(result),
          time_(day.time_zone, result.first_us, chart_end_us(result)),
          now_us_(end_of_books_us(result)) {
        const GangMoment now = gang_at(result, now_us_);
        top_t_ = std::max(now.delivered_t + now.in_hoppers_t, planned_at(day, chart_end_us(result)));
        if (result.forecast)
            top_t_ = std::max(top_t_, result.forecast->cases.front().delivered_t.back().high90);
        step_t_ = round_step(top_t_ / 6);
        top_t_ = std::max(step_t_, std::ceil(top_t_ / step_t_) * step_t_);
    }

    [[nodiscard]] std::string svg() const {
        std::string svg = open_svg(328, "The gang against the plan");
        svg += "<text class=\"strong\" x=\"" + fixed(kChartLeft, 0) +
               "\" y=\"21\">All machines, t since the logs began</text>";
        svg += time_.marks(kTopY, kFloorY);
        for (double t = 0.0; t <= top_t_ + 1e-9; t += step_t_) svg += level_line(y(t), fixed(t, 0));
        if (result_.forecast) svg += fan(*result_.forecast);
        return svg + plan() + past() + "</svg></div>\n";
    }

  private:
    [[nodiscard]] double y(double t) const {
        return kFloorY - (kFloorY - kTopY) * std::clamp(t / top_t_, 0.0, 1.0);
    }
    [[nodiscard]] std::string point(TimeUs time_us, double t) const {
        return fixed(time_.x(static_cast<double>(time_us) / 1e6), 1) + "," + fixed(y(t), 1);
    }

    [[nodiscard]] std::string past() const {
        const TimeUs first_us = result_.first_us / kMinuteUsLong * kMinuteUsLong;
        const TimeUs step_us = even_step_us(now_us_ - first_us, kMinuteUsLong, kMostPoints);
        std::string delivered;
        std::string with_hoppers;
        std::string back;  // along the delivered again, to close the band of the hoppers
        for (TimeUs at_us = first_us; at_us <= now_us_; at_us += step_us) {
            const GangMoment at = gang_at(result_, at_us);
            delivered += (delivered.empty() ? "M" : "L") + point(at_us, at.delivered_t);
            with_hoppers +=
                (with_hoppers.empty() ? "M" : "L") + point(at_us, at.delivered_t + at.in_hoppers_t);
            back.insert(0, "L" + point(at_us, at.delivered_t));
        }
        return "<path class=\"hopper-band\" d=\"" + with_hoppers + back +
               "Z\"/>\n<path class=\"sum-line\" d=\"" + delivered + "\"/>\n";
    }

    [[nodiscard]] std::string plan() const {
        std::string path = "M" + point(result_.first_us, planned_at(day_, result_.first_us));
        for (const PlanPoint& p : day_.intake_plan) {
            if (p.unix_s <= time_.first_s() || p.unix_s >= time_.last_s()) continue;
            path += "L" + point(static_cast<TimeUs>(p.unix_s * 1e6), p.planned_t);
        }
        path += "L" + point(chart_end_us(result_), planned_at(day_, chart_end_us(result_)));
        return "<path class=\"plan-line\" d=\"" + path + "\"/>\n";
    }

    [[nodiscard]] std::string fan(const Forecast& f) const {
        const std::vector<Quantiles>& q = f.cases.front().delivered_t;
        const auto line = [&](double Quantiles::*level) {
            std::string path;
            for (std::size_t k = 0; k < q.size(); ++k)
                path += (k == 0 ? "M" : "L") + point(f.point_us(k), q[k].*level);
            return path;
        };
        const auto band = [&](double Quantiles::*low, double Quantiles::*high, const char* name) {
            std::string path = line(high);
            for (std::size_t k = q.size(); k-- > 0;) path += "L" + point(f.point_us(k), q[k].*low);
            return std::string("<path class=\"") + name + "\" d=\"" + path + "Z\"/>\n";
        };
        const double now_x = time_.x(static_cast<double>(f.now_us) / 1e6);
        const bool on_right = now_x < kChartWidth - 60;
        const std::string now = fixed(now_x, 1);
        return band(&Quantiles::low90, &Quantiles::high90, "fan-90") +
               band(&Quantiles::low50, &Quantiles::high50, "fan-50") + "<path class=\"fan-median\" d=\"" +
               line(&Quantiles::median) + "\"/>\n<line class=\"tip-mark\" x1=\"" + now + "\" x2=\"" + now +
               "\" y1=\"" + fixed(kTopY, 0) + "\" y2=\"" + fixed(kFloorY, 0) + "\"/><text x=\"" +
               fixed(on_right ? now_x + 5 : now_x - 5, 1) + "\" y=\"" + fixed(kTopY + 14, 0) +
               (on_right ? "\">now</text>\n" : "\" text-anchor=\"end\">now</text>\n");
    }

    const Day& day_;
    const DayResult& result_;
    TimeAxis time_;
    TimeUs now_us_;
    double top_t_ = 1.0;
    double step_t_ = 1.0;
};

std::string legend(bool with_forecast) {
    const auto entry = [](const std::string& drawing, const char* words) {
        return "<span><svg viewBox=\"0 0 22 12\">" + drawing + "</svg>" + words + "</span>";
    };
    std::string html =
        "<p class=\"legend quiet\">" +
        entry("<path class=\"sum-line\" d=\"M0,6L22,6\"/>", "delivered: tipped into trailers") +
        entry("<path class=\"hopper-band\" d=\"M0,1L22,1L22,11L0,11Z\"/>", "in hoppers") +
        entry("<path class=\"plan-line\" d=\"M0,6L22,6\"/>", "the factory's plan");
    if (with_forecast) {
        html += entry("<path class=\"fan-median\" d=\"M0,6L22,6\"/>", "forecast, middle") +
                entry(
                    "<path class=\"fan-90\" d=\"M0,0L22,0L22,12L0,12Z\"/><path class=\"fan-50\" "
                    "d=\"M0,3L22,3L22,9L0,9Z\"/>",
                    "half of the forecasts; 9 in 10");
    }
    return html + "</p>\n";
}

}  // namespace

std::string plan_chart_html(const Day& day, const DayResult& result) {
    return PlanDrawing(day, result).svg() + legend(result.forecast.has_value());
}

std::string plan_table_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    const TimeUs now_us = end_of_books_us(result);
    const TimeUs step_us = even_step_us(now_us - result.first_us, kRowUs, kMostTableRows);
    const auto past_row = [&](TimeUs at_us) {
        const GangMoment at = gang_at(result, at_us);
        rows.push_back({clock_cell(at_us, day, result), fixed(planned_at(day, at_us), 1),
                        fixed(at.delivered_t, 1), fixed(at.in_hoppers_t, 1), "", ""});
    };
    for (TimeUs at_us = (result.first_us / step_us + 1) * step_us; at_us < now_us; at_us += step_us)
        past_row(at_us);
    past_row(now_us);
    if (result.forecast) {
        const Forecast& f = *result.forecast;
        for (std::size_t k = 1; k < f.grid.points(); ++k) {
            const Quantiles& q = f.cases.front().delivered_t[k];
            const auto range = [](double low, double high) {
                return fixed(low, 1) + " to " + fixed(high, 1);
            };
            rows.push_back({clock_cell(f.point_us(k), day, result), fixed(planned_at(day, f.point_us(k)), 1),
                            fixed(q.median, 1), "", range(q.low50, q.high50), range(q.low90, q.high90)});
        }
    }
    return "<details><summary>The same as a table</summary>\n" +
           table_html({"at", "planned, t", "delivered (then forecast), t", "in hoppers, t",
                       "half of the forecasts", "9 in 10"},
                      rows) +
           "</details>\n";
}

}  // namespace podrate::sim
