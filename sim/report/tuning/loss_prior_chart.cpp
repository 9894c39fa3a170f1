#include "report/tuning/loss_prior_chart.hpp"

#include <algorithm>
#include <cmath>

#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "report/html/markup.hpp"
#include "report/tuning/loss_prior_words.hpp"

namespace podrate::sim {
namespace {

constexpr double kLossWidth = 1000;
constexpr double kLossLeft = 330;
constexpr double kLossRight = 980;
constexpr double kLossCeiling = 40;
constexpr double kLossRow = 22;
constexpr double kOutlierRoom = 70;  // right of a mark, for its word

std::string day_mark_svg(double x, double y, bool outlier) {
    if (!outlier)
        return "<circle class=\"day-mark\" cx=\"" + fixed(x, 1) + "\" cy=\"" + fixed(y, 1) + "\" r=\"4\"/>";
    const auto at = [&](double dx, double dy) { return fixed(x + dx, 1) + "," + fixed(y + dy, 1); };
    return "<path class=\"far-mark\" d=\"M" + at(0, -7) + "L" + at(7, 0) + "L" + at(0, 7) + "L" + at(-7, 0) +
           "Z\"/>";
}

// Natural logarithms from left to right.
class LogAxis {
  public:
    LogAxis(const LossFit& fit, const LossPrior& prior)
        : low_(std::log(prior.low())), high_(std::log(prior.high())) {
        for (const LossReading& reading : fit.readings) {
            if (reading.quantity != prior.quantity) continue;
            low_ = std::min(low_, reading.ln_value - kReach90 * reading.ln_sd);
            high_ = std::max(high_, reading.ln_value + kReach90 * reading.ln_sd);
        }
        const double room = std::max(0.03 * (high_ - low_), 0.05);
        low_ -= room;
        high_ += room;
        // More than the whole crop can't be lost: what is said to lies at the edge.
        if (prior.quantity != LossQuantity::sensor) high_ = std::min(high_, 0.0);
        low_ = std::min(low_, high_ - room);
    }
    [[nodiscard]] double x(double ln_value) const {
        const double seen = std::clamp(ln_value, low_, high_);
        return kLossLeft + (kLossRight - kLossLeft) * (seen - low_) / (high_ - low_);
    }
    [[nodiscard]] std::string marks(LossQuantity quantity, double bottom) const {
        const double scale = quantity == LossQuantity::sensor ? 1.0 : 100.0;
        const double least = std::exp(low_) * scale;
        std::string svg;
        double last = -100.0;
        for (double decade = std::pow(10.0, std::floor(std::log10(least))); last < kLossRight;
             decade *= 10.0) {
            if (std::log(decade / scale) > high_) break;
            for (const double step : {1.0, 1.5, 2.0, 3.0, 5.0, 7.0}) {
                const double at = x(std::log(step * decade / scale));
                if (at < kLossLeft || at > kLossRight || at - last < 44.0) continue;
                last = at;
                svg += svg_line("grid", at, kLossCeiling, at, bottom) +
                       svg_words(at, bottom + 18, "middle", shown(step * decade));
            }
        }
        const char* unit =
            quantity == LossQuantity::sensor ? "hits a kg (by logarithm)" : "% of the peas (by logarithm)";
        return svg + svg_words(0.5 * (kLossLeft + kLossRight), bottom + 40, "middle", unit);
    }

  private:
    double low_;
    double high_;
};

std::string prior_band(const LogAxis& axis, const LossPrior& prior, double bottom) {
    const double low = axis.x(std::log(prior.low()));
    const double high = axis.x(std::log(prior.high()));
    const double middle = axis.x(std::log(prior.value()));
    return "<rect class=\"prior-band\" x=\"" + fixed(low, 1) + "\" y=\"" + fixed(kLossCeiling, 1) +
           "\" width=\"" + fixed(high - low, 1) + "\" height=\"" + fixed(bottom - kLossCeiling, 1) + "\"/>" +
           svg_line("prior-edge", low, kLossCeiling, low, bottom) +
           svg_line("prior-edge", high, kLossCeiling, high, bottom) +
           svg_line("prior-middle", middle, kLossCeiling, middle, bottom) + "\n";
}

std::string day_row(const LogAxis& axis, const LossReading& reading, double y) {
    const bool far = reading.outlier();
    const double x = axis.x(reading.ln_value);
    const double low = axis.x(reading.ln_value - kReach90 * reading.ln_sd);
    const double high = axis.x(reading.ln_value + kReach90 * reading.ln_sd);
    std::string svg = svg_words(26, y + 4.5, "start", shortened(reading.day)) +
                      svg_line(far ? "far-reach" : "day-reach", low, y, high, y) + day_mark_svg(x, y, far);
    if (far && high + kOutlierRoom < kLossRight)
        svg += svg_words(high + 8, y + 5, "start", "outlier", "strong over");
    if (far && high + kOutlierRoom >= kLossRight)
        svg += svg_words(low - 8, y + 5, "end", "outlier", "strong over");
    return svg + "\n";
}

}  // namespace

std::string loss_prior_chart_svg(const LossFit& fit, const LossPrior& prior) {
    const LogAxis axis(fit, prior);
    std::string rows;
    double y = kLossCeiling + 0.5 * kLossRow;
    for (std::size_t m = 0; m < prior.machines.size(); ++m) {
        const double begun = y;
        const double level = axis.x(std::log(prior.value_of(m)));
        std::string of_machine;
        for (const LossReading& reading : fit.readings) {
            if (reading.quantity != prior.quantity || reading.machine != prior.machines[m]) continue;
            y += kLossRow;
            of_machine += day_row(axis, reading, y);
        }
        rows += svg_words(
                    10, begun + 5, "start",
                    shortened(prior.machines[m]) + ": " + loss_value_text(prior.quantity, prior.value_of(m)),
                    "strong") +
                svg_line("level-line", level, begun - 6, level, y + 9) + "\n" + of_machine;
        y += 1.3 * kLossRow;
    }
    const double bottom = y - 0.5 * kLossRow;
    return "<div class=\"chart\"><svg viewBox=\"0 0 " + fixed(kLossWidth, 0) + " " + fixed(bottom + 54, 0) +
           "\" role=\"img\"><title>" + escaped(words_for(prior.quantity)) + " by machine and day</title>\n" +
           svg_words(10, 24, "start", "machine's level, and its days", "strong") +
           prior_band(axis, prior, bottom) + axis.marks(prior.quantity, bottom) + "\n" + rows +
           "</svg></div>\n";
}

std::string loss_prior_legend_html() {
    const auto entry = [](const std::string& shape, const char* words) {
        return "<span><svg viewBox=\"0 0 22 20\" "
               "style=\"height:20px;border:0;background:none;vertical-align:-5px\">" +
               shape + "</svg>" + words + "</span>";
    };
    return "<p class=\"legend quiet\">" +
           entry(svg_line("day-reach", 1, 10, 21, 10) + day_mark_svg(11, 10, false),
                 "a machine's day by itself, 9 times in 10") +
           entry(svg_line("far-reach", 1, 10, 21, 10) + day_mark_svg(11, 10, true),
                 "outlier: more than 3 standard deviations from what all others tell") +
           entry(svg_line("level-line", 11, 1, 11, 19), "the machine's level over its days") +
           entry("<rect class=\"prior-band\" x=\"1\" y=\"2\" width=\"20\" height=\"16\"/>" +
                     svg_line("prior-middle", 11, 2, 11, 18),
                 "to be thought beforehand of a machine not seen yet, 9 times in 10") +
           "</p>\n";
}

}  // namespace podrate::sim
