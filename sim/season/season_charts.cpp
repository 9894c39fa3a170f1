#include "season/season_charts.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

constexpr double kPageWidth = 1040;
constexpr double kAxisLeft = 52;
constexpr double kAxisRight = 1024;
constexpr double kPlotTop = 40;
constexpr double kPlotFloor = 200;
constexpr double kMostMarks = 12;

// 1, 2 or 5 times a power of ten, not below `least`.
double even_step(double least) {
    const double decade = std::pow(10.0, std::floor(std::log10(std::max(least, 1e-6))));
    for (const double times : {1.0, 2.0, 5.0}) {
        if (times * decade >= least * (1.0 - 1e-9)) return times * decade;
    }
    return 10.0 * decade;
}

// A frame with a place for each day from left to right and a scale from 0 to `top` or more.
class DayChart {
  public:
    DayChart(const Season& season, const std::string& title, const std::string& words, double top)
        : days_(season.days.size()), step_(even_step(std::max(top, 1e-3) / 4.0)) {
        top_ = step_ * std::ceil(std::max(top, 1e-3) / step_ - 1e-9);
        svg_ = "<div class=\"chart\"><svg viewBox=\"0 0 " + fixed(kPageWidth, 0) +
               " 236\" role=\"img\"><title>" + escaped(title) + "</title>\n<text class=\"strong\" x=\"" +
               fixed(kAxisLeft, 0) + "\" y=\"21\">" + escaped(title) + "</text><text x=\"" +
               fixed(kAxisRight, 0) + "\" y=\"21\" text-anchor=\"end\">" + escaped(words) + "</text>\n";
        for (int i = 0; i * step_ <= top_ * (1.0 + 1e-9); ++i) add_level(i * step_);
        add_dates(season);
    }
    [[nodiscard]] double middle(std::size_t day) const { return left(static_cast<double>(day) + 0.5); }
    [[nodiscard]] double width() const { return left(1.0) - left(0.0); }
    [[nodiscard]] double y(double value) const {
        return kPlotFloor - (kPlotFloor - kPlotTop) * std::clamp(value / top_, 0.0, 1.0);
    }
    void add(const std::string& shape) { svg_ += shape + '\n'; }
    [[nodiscard]] std::string text() const { return svg_ + "</svg></div>\n"; }

  private:
    [[nodiscard]] double left(double place) const {
        return kAxisLeft +
               (kAxisRight - kAxisLeft) * place / static_cast<double>(std::max<std::size_t>(days_, 1));
    }
    void add_level(double value) {
        const int decimals = step_ < 0.1 ? 2 : (step_ < 1.0 ? 1 : 0);
        add("<line class=\"grid\" x1=\"" + fixed(kAxisLeft, 0) + "\" x2=\"" + fixed(kAxisRight, 0) +
            "\" y1=\"" + fixed(y(value), 1) + "\" y2=\"" + fixed(y(value), 1) + "\"/><text x=\"" +
            fixed(kAxisLeft - 6, 0) + "\" y=\"" + fixed(y(value) + 4.5, 1) + "\" text-anchor=\"end\">" +
            fixed(value, decimals) + "</text>");
    }
    void add_dates(const Season& season) {
        const auto stride = static_cast<std::size_t>(std::ceil(static_cast<double>(days_) / kMostMarks));
        for (std::size_t i = 0; i < days_; i += std::max<std::size_t>(stride, 1)) {
            const std::string& date = season.days[i].date;
            add("<text x=\"" + fixed(middle(i), 1) + "\" y=\"" + fixed(kPlotFloor + 18, 0) +
                "\" text-anchor=\"middle\">" + escaped(date.size() == 10 ? date.substr(5) : "no date") +
                "</text>");
        }
    }
    std::size_t days_;
    double step_;
    double top_ = 0.0;
    std::string svg_;
};

}  // namespace

std::string tonnes_by_day_svg(const Season& season, const SeasonSums& sums) {
    double top_t = 0.0;
    for (const SeasonSum& day : sums.days) top_t = std::max(top_t, day.harvested_kg / 1e3);
    DayChart chart(season, "Harvested by day, t", "month and day; * not whole, - without figures", top_t);
    const double width = std::max(0.8 * chart.width(), 0.8);
    for (std::size_t i = 0; i < season.days.size(); ++i) {
        const std::string x = fixed(chart.middle(i), 1);
        const bool counts = season.days[i].counts();
        const double y = chart.y(sums.days[i].harvested_kg / 1e3);
        if (counts) {
            chart.add("<rect class=\"harvesting\" x=\"" + fixed(chart.middle(i) - 0.5 * width, 1) +
                      "\" y=\"" + fixed(y, 1) + "\" width=\"" + fixed(width, 1) + "\" height=\"" +
                      fixed(kPlotFloor - y, 1) + "\"/>");
        }
        if (season.days[i].use == DayUse::whole) continue;
        chart.add("<text class=\"strong\" x=\"" + x + "\" y=\"" + fixed(counts ? y - 1 : kPlotFloor - 4, 1) +
                  "\" text-anchor=\"middle\">" + (counts ? "*" : "-") + "</text>");
    }
    return chart.text();
}

std::string loss_by_day_svg(const Season& season, const SeasonSums& sums) {
    double top_pct = 0.0;
    for (const SeasonSum& day : sums.days) {
        if (const std::optional<Share> loss = day.loss())
            top_pct = std::max(top_pct, 100.0 * static_cast<double>(loss->high));
    }
    if (top_pct <= 0.0) return {};
    DayChart chart(season, "Lost by day, %", "of the peas that stood; line: 9 times in 10", top_pct);
    const double reach = std::min(5.0, 0.3 * chart.width());
    for (std::size_t i = 0; i < season.days.size(); ++i) {
        const std::optional<Share> loss = sums.days[i].loss();
        if (!loss) continue;
        const auto y = [&](Real share) { return fixed(chart.y(100.0 * static_cast<double>(share)), 1); };
        const std::string x = fixed(chart.middle(i), 1);
        chart.add("<line class=\"tip-mark\" x1=\"" + x + "\" x2=\"" + x + "\" y1=\"" + y(loss->low) +
                  "\" y2=\"" + y(loss->high) + "\"/><circle class=\"harvesting\" cx=\"" + x + "\" cy=\"" +
                  y(loss->share) + "\" r=\"" + fixed(reach, 1) + "\"/>");
    }
    return chart.text();
}

}  // namespace podrate::sim
