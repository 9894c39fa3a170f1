#include "bench/curve_plot.hpp"

#include <algorithm>
#include <cmath>

#include "kit/trace_paint.hpp"

namespace podrate::ui {
namespace {

constexpr char kWidestRung[] = "0000";
constexpr float kTickRoomUnits = 44.0F;
constexpr float kCurveUnits = 2.0F;
constexpr float kDotUnits = 2.5F;
constexpr float kReachUnits = 18.0F;  // of the mouse
constexpr float kAskedShade = 0.12F;
constexpr double kLeastMostPerH = 0.1;
constexpr double kRoomRight = 1.05;

double up_of(const sim::AlarmFigures& figures, CurveUp up) {
    return up == CurveUp::told ? 100.0 * of(figures, sim::AlarmFigure::detection)
                               : of(figures, sim::AlarmFigure::delay_median_s);
}

double nothing_of(const sim::AlarmFigures& figures) {
    return of(figures, sim::AlarmFigure::false_per_h);
}

// Of 1, 2 and 5 times powers of ten the first that makes at most six steps.
double step_for(double most) {
    double step = 1.0;
    for (const double wanted : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}) {
        step = wanted;
        if (most / wanted <= 6.0) break;
    }
    return step;
}

class CurvePainter {
  public:
    CurvePainter(Canvas& canvas, Box area, const Bench& bench, CurveUp up)
        : canvas_(canvas), bench_(bench), curve_(*bench.book().curve()), up_(up), unit_(canvas.unit()) {
        const float line = Canvas::line_of(canvas.fonts().label);
        head_ = area.take_top(line, line / 2);
        across_ = area.take_bottom(line);
        ticks_ = area.take_bottom(line, 2 * unit_);
        ladder_ = area.take_left(Canvas::width_of(canvas.fonts().label, kWidestRung) + 1.0F, 9 * unit_);
        area.take_right(6 * unit_);
        plot_ = area;
        choose_scales();
    }

    void paint() {
        const Palette& palette = canvas_.palette();
        const Speech& say = bench_.speech();
        canvas_.text(head_, canvas_.fonts().label, palette.text,
                     say(up_ == CurveUp::told ? Text::bench_up_told : Text::bench_up_delay));
        canvas_.text({plot_.x, across_.y, plot_.w, across_.h}, canvas_.fonts().label, palette.quiet,
                     say(Text::bench_across), Align::right);
        grid();
        asked();
        canvas_.list().PushClipRect({plot_.x - 8 * unit_, plot_.y - 8 * unit_},
                                    {plot_.right() + 8 * unit_, plot_.bottom() + 8 * unit_}, true);
        line_and_dots();
        mark(bench_.book().before(), 0, palette.series[0]);
        mark(bench_.book().after(), 1, palette.series[1]);
        canvas_.list().PopClipRect();
    }

    [[nodiscard]] std::optional<std::size_t> pointed() const {
        if (!ImGui::IsMouseHoveringRect({plot_.x, plot_.y}, {plot_.right(), plot_.bottom()}))
            return std::nullopt;
        const ImVec2 mouse = ImGui::GetIO().MousePos;
        std::optional<std::size_t> nearest;
        float least = kReachUnits * unit_;
        for (std::size_t i = 0; i < curve_.values.size(); ++i) {
            if (!has_place(curve_.figures[i])) continue;
            const ImVec2 at = place(curve_.figures[i]);
            const float off = std::hypot(at.x - mouse.x, at.y - mouse.y);
            if (off >= least) continue;
            least = off;
            nearest = i;
        }
        return nearest;
    }

  private:
    void choose_scales() {
        const sim::TuningOptions options;
        most_per_h_ = std::max(kLeastMostPerH, 1.5 * options.most_false_per_h);
        double low = 90.0;
        double high = 4.0;
        const auto take = [&](const sim::AlarmFigures& figures) {
            if (nothing_of(figures) > most_per_h_) most_per_h_ = nothing_of(figures);
            if (up_of(figures, up_) < low) low = up_of(figures, up_);
            if (up_of(figures, up_) > high) high = up_of(figures, up_);
        };
        for (const sim::AlarmFigures& figures : curve_.figures) take(figures);
        take(bench_.book().before().figures);
        take(bench_.book().after().figures);
        most_per_h_ *= kRoomRight;
        if (up_ == CurveUp::told) {
            step_ = low >= 75.0 ? 5.0 : (low >= 50.0 ? 10.0 : 20.0);
            low_ = step_ * std::floor(low / step_);
            high_ = 100.0;
        } else {
            step_ = step_for(high);
            low_ = 0.0;
            high_ = step_ * std::ceil(high / step_);
        }
        // Each second or fourth of them where lines would meet.
        const float line = Canvas::line_of(canvas_.fonts().label);
        while (step_ < high_ - low_ && plot_.h * static_cast<float>(step_ / (high_ - low_)) < line)
            step_ *= 2.0;
    }

    // By square root: few are what matters, and none has a place.
    [[nodiscard]] float x_of(double per_h) const {
        return plot_.x + plot_.w * static_cast<float>(std::sqrt(std::clamp(per_h / most_per_h_, 0.0, 1.0)));
    }
    [[nodiscard]] float y_of(double up) const {
        return plot_.bottom() -
               plot_.h * static_cast<float>(std::clamp((up - low_) / (high_ - low_), 0.0, 1.0));
    }
    [[nodiscard]] bool has_place(const sim::AlarmFigures& figures) const {
        return !std::isnan(nothing_of(figures)) && !std::isnan(up_of(figures, up_));
    }
    [[nodiscard]] ImVec2 place(const sim::AlarmFigures& figures) const {
        return {x_of(nothing_of(figures)), y_of(up_of(figures, up_))};
    }

    void grid() {
        const Palette& palette = canvas_.palette();
        const Speech& say = bench_.speech();
        ImFont* font = canvas_.fonts().label;
        const float line = Canvas::line_of(font);
        for (double value = high_; value >= low_ - 1e-9 * step_; value -= step_) {
            const float y = y_of(value);
            canvas_.line({plot_.x, y}, {plot_.right(), y}, palette.rule, 1.0F);
            canvas_.text({ladder_.x, y - line / 2, ladder_.w, line}, font, palette.quiet,
                         say.number(value, 0), Align::right);
        }
        float last = plot_.x - 2 * kTickRoomUnits * unit_;
        for (const double per_h :
             {0.0, 0.02, 0.05, 0.1, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0, 120.0}) {
            if (per_h > most_per_h_ || x_of(per_h) - last < kTickRoomUnits * unit_) continue;
            last = x_of(per_h);
            canvas_.line({last, plot_.y}, {last, plot_.bottom()}, palette.rule, 1.0F);
            const int decimals = per_h == 0.0 || per_h >= 1.0 ? 0 : (per_h == 0.1 || per_h == 0.5 ? 1 : 2);
            const float half = kTickRoomUnits * unit_ / 2;
            canvas_.text({last - half, ticks_.y, 2 * half, ticks_.h}, font, palette.quiet,
                         say.number(per_h, decimals), Align::centre);
        }
    }

    // Where a setting would meet what `podrate tune` asks.
    void asked() {
        const sim::TuningOptions options;
        const float bottom = up_ == CurveUp::told ? y_of(100.0 * options.least_detection) : plot_.bottom();
        canvas_.list().AddRectFilled({plot_.x, plot_.y}, {x_of(options.most_false_per_h), bottom},
                                     Canvas::packed(canvas_.palette().working, kAskedShade));
    }

    void line_and_dots() {
        const Palette& palette = canvas_.palette();
        std::optional<ImVec2> last;
        for (const sim::AlarmFigures& figures : curve_.figures) {
            if (!has_place(figures)) {
                last.reset();
                continue;
            }
            const ImVec2 at = place(figures);
            if (last) canvas_.line(*last, at, palette.quiet, kCurveUnits);
            canvas_.list().AddCircleFilled(at, kDotUnits * unit_, Canvas::packed(palette.quiet), 12);
            last = at;
        }
    }

    void mark(const AlarmPoint& point, int shape, Rgb colour) {
        if (!has_place(point.figures)) return;
        const ImVec2 at = place(point.figures);
        const auto range = [&](sim::AlarmFigure figure) {
            return point.ranges[static_cast<std::size_t>(figure)];
        };
        const sim::Range side = range(sim::AlarmFigure::false_per_h);
        const sim::Range height =
            range(up_ == CurveUp::told ? sim::AlarmFigure::detection : sim::AlarmFigure::delay_median_s);
        const double scale = up_ == CurveUp::told ? 100.0 : 1.0;
        if (side.known()) canvas_.line({x_of(side.low), at.y}, {x_of(side.high), at.y}, colour, 1.5F);
        if (height.known())
            canvas_.line({at.x, y_of(scale * height.low)}, {at.x, y_of(scale * height.high)}, colour, 1.5F);
        paint_shape(canvas_, at, shape, colour);
    }

    Canvas& canvas_;
    const Bench& bench_;
    const AlarmCurve& curve_;
    CurveUp up_;
    float unit_;
    Box head_;
    Box across_;
    Box ticks_;
    Box ladder_;
    Box plot_;
    double most_per_h_ = 1.0;
    double low_ = 0.0;
    double high_ = 100.0;
    double step_ = 20.0;
};

}  // namespace

std::optional<std::size_t> draw_curve_plot(Canvas& canvas, Box area, const Bench& bench, CurveUp up) {
    CurvePainter painter(canvas, area, bench, up);
    painter.paint();
    return painter.pointed();
}

}  // namespace podrate::ui
