#include "kit/time_series.hpp"

#include <algorithm>
#include <cmath>

#include "kit/trace_paint.hpp"

namespace podrate::ui {
namespace {

constexpr float kGutterUnits = 92.0F;
constexpr float kMarginUnits = 14.0F;
constexpr float kGapUnits = 8.0F;
constexpr float kTickRoomUnits = 130.0F;
constexpr float kHiddenShare = 0.75F;
constexpr float kValueTickRoom = 1.9F;  // lines of text
constexpr double kWheelZoom = 1.25;
constexpr float kLeastSweepPx = 4.0F;

class ChartPainter {
  public:
    ChartPainter(Canvas& canvas, const Box& area, const Chart& chart, bool with_times,
                 const TimeWindow& window, const ChartPicture& picture)
        : canvas_(canvas),
          area_(area),
          chart_(chart),
          with_times_(with_times),
          window_(window),
          picture_(picture),
          plot_(plot_of(canvas, area, with_times), picture.axis,
                unit_of(chart.quantity, chart.say.units).per_si) {}

    void paint(const TimeAxis& times) {
        canvas_.panel(area_);
        value_axis();
        time_grid(times);
        canvas_.list().PushClipRect({plot_.box.x, plot_.box.y}, {plot_.box.right(), plot_.box.bottom()},
                                    true);
        for (std::size_t i = 0; i < chart_.lines.size(); ++i) {
            if (chart_.lines[i].column->has_band()) paint_band(canvas_, plot_, picture_.traces[i], colour(i));
        }
        for (std::size_t i = 0; i < chart_.lines.size(); ++i)
            paint_line(canvas_, plot_, picture_.traces[i], colour(i));
        if (chart_.lines.size() > 1) shapes(times);
        canvas_.list().PopClipRect();
        cursor(times);
        head();
    }

  private:
    [[nodiscard]] Rgb colour(std::size_t line) const { return canvas_.palette().series[line % kMostLines]; }
    [[nodiscard]] float x_of(double at_ms) const {
        const TimeRange& shown = window_.shown();
        return plot_.box.x + static_cast<float>((at_ms - shown.from_ms) / shown.span_ms() *
                                                static_cast<double>(plot_.box.w));
    }

    void value_axis() {
        const float unit = canvas_.unit();
        const float line = Canvas::line_of(canvas_.fonts().label);
        for (int i = 0; i < plot_.axis.ticks(); ++i) {
            const float y = std::round(plot_.y_of_tick(i));
            canvas_.line({plot_.box.x, y}, {plot_.box.right(), y}, canvas_.palette().rule, 1.0F);
            const Box label = {area_.x + kGapUnits * unit, y - line / 2,
                               plot_.box.x - area_.x - 2 * kGapUnits * unit, line};
            canvas_.text(label, canvas_.fonts().label, canvas_.palette().quiet,
                         chart_.say.number(plot_.axis.tick(i), plot_.axis.decimals), Align::right);
        }
    }

    void time_grid(const TimeAxis& times) {
        const float line = Canvas::line_of(canvas_.fonts().label);
        const float room = kTickRoomUnits * canvas_.unit();
        for (const TimeTick& tick : times.ticks) {
            const float x = std::round(x_of(tick.at_ms));
            canvas_.line({x, plot_.box.y}, {x, plot_.box.bottom()}, canvas_.palette().rule, 1.0F);
            // No label half hidden by the cursor's.
            const bool hidden =
                window_.cursor_ms() && std::abs(x - x_of(*window_.cursor_ms())) < kHiddenShare * room;
            if (!with_times_ || hidden) continue;
            const float left = std::clamp(x - room / 2, area_.x, area_.right() - room);
            canvas_.text({left, plot_.box.bottom() + kGapUnits / 2 * canvas_.unit(), room, line},
                         canvas_.fonts().label, canvas_.palette().quiet, tick.label, Align::centre);
        }
    }

    // Beside hue, a shape on the line at each time tick.
    void shapes(const TimeAxis& times) {
        for (std::size_t i = 0; i < chart_.lines.size(); ++i) {
            for (const TimeTick& tick : times.ticks) {
                const auto reading =
                    reading_at(*chart_.lines[i].machine, *chart_.lines[i].column, tick.at_ms);
                if (!reading) continue;
                paint_shape(canvas_, {x_of(tick.at_ms), plot_.y_of(reading->value)}, static_cast<int>(i),
                            colour(i));
            }
        }
    }

    void cursor(const TimeAxis& times) {
        if (!window_.cursor_ms()) return;
        const float x = std::round(x_of(*window_.cursor_ms()));
        if (x < plot_.box.x || x > plot_.box.right()) return;
        const Palette& palette = canvas_.palette();
        canvas_.line({x, plot_.box.y}, {x, plot_.box.bottom()}, palette.text, 1.5F);
        for (std::size_t i = 0; i < picture_.at_cursor.size(); ++i) {
            if (!picture_.at_cursor[i]) continue;
            const float y = plot_.y_of(picture_.at_cursor[i]->value);
            if (y >= plot_.box.y && y <= plot_.box.bottom())
                paint_shape(canvas_, {x, y}, static_cast<int>(i), colour(i));
        }
        if (!with_times_) return;
        ImFont* font = canvas_.fonts().label;
        const float width = Canvas::width_of(font, times.cursor_label) + 2 * kGapUnits * canvas_.unit();
        const Box box = {std::clamp(x - width / 2, area_.x, area_.right() - width),
                         plot_.box.bottom() + kGapUnits / 2 * canvas_.unit(), width, Canvas::line_of(font)};
        canvas_.fill(box, palette.text, 4.0F);
        canvas_.text(box, font, palette.panel, times.cursor_label, Align::centre);
    }

    // What is said of each line: less where there is less room.
    struct Saying {
        bool name = true;
        bool band = true;
    };

    [[nodiscard]] std::string words_of(std::size_t line, Saying saying) const {
        const bool named = chart_.lines.size() > 1 && saying.name;
        std::string words = named ? chart_.lines[line].name : "";
        if (!window_.cursor_ms()) return words;
        const auto& reading = picture_.at_cursor[line];
        if (named) words += ' ';
        return words + (reading ? reading->figures(chart_.say, saying.band) : "\xE2\x80\x93");
    }

    [[nodiscard]] Saying saying_for(float room) const {
        constexpr Saying kLess[] = {{true, true}, {true, false}, {false, false}};
        for (const Saying& saying : kLess) {
            float width = 0.0F;
            for (std::size_t i = 0; i < chart_.lines.size(); ++i)
                width += Canvas::width_of(canvas_.fonts().label, words_of(i, saying)) + shape_room();
            if (width <= room) return saying;
        }
        return kLess[2];
    }
    [[nodiscard]] float shape_room() const { return 4 * kGapUnits * canvas_.unit(); }

    void head() {
        const float unit = canvas_.unit();
        const Palette& palette = canvas_.palette();
        ImFont* font = canvas_.fonts().label;
        Box row = {plot_.box.x, area_.y + kGapUnits / 2 * unit, plot_.box.w, Canvas::line_of(font)};
        const bool banded = std::any_of(chart_.lines.begin(), chart_.lines.end(),
                                        [](const ChartLine& line) { return line.column->has_band(); });
        const std::string& title = banded && !window_.cursor_ms() ? chart_.banded_title : chart_.title;
        row.take_left(canvas_.text(row, font, palette.text, title), 2 * kGapUnits * unit);
        const Saying saying = saying_for(row.w);
        for (std::size_t i = chart_.lines.size(); i-- > 0;) {
            const std::string words = words_of(i, saying);
            if (words.empty()) continue;
            const float width = std::min(Canvas::width_of(font, words) + 1.0F, row.w);
            canvas_.text(row.take_right(width, 2 * kGapUnits * unit), font, palette.text, words,
                         Align::right);
            if (chart_.lines.size() > 1) {
                paint_shape(canvas_, {row.right(), row.y + row.h / 2}, static_cast<int>(i), colour(i));
                row.take_right(2 * kGapUnits * unit);
            }
        }
    }

    Canvas& canvas_;
    Box area_;
    const Chart& chart_;
    bool with_times_;
    const TimeWindow& window_;
    const ChartPicture& picture_;
    Plot plot_;
};

void paint_sweep(Canvas& canvas, const Box& plot, float from_x, float to_x) {
    const ImU32 shade = Canvas::packed(canvas.palette().quiet, 0.25F);
    canvas.list().AddRectFilled({std::min(from_x, to_x), plot.y}, {std::max(from_x, to_x), plot.bottom()},
                                shade);
}

// Returns whether a sweep is under way.
bool take_mouse(const Box& plot, const Chart& chart, TimeWindow& window) {
    ImGui::SetCursorScreenPos({plot.x, plot.y});
    ImGui::InvisibleButton(chart.title.c_str(), {std::max(plot.w, 1.0F), std::max(plot.h, 1.0F)});
    const ImGuiIO& io = ImGui::GetIO();
    const TimeRange shown = window.shown();
    const double pixel_ms = shown.span_ms() / static_cast<double>(plot.w);
    const auto time_at = [&](float x) { return shown.from_ms + static_cast<double>(x - plot.x) * pixel_ms; };
    const bool moved = io.MouseDelta.x != 0.0F || io.MouseDelta.y != 0.0F;
    if (ImGui::IsItemHovered()) {
        // A pointer at rest leaves the cursor to the keys.
        if (moved) window.set_cursor(time_at(io.MousePos.x));
        if (io.MouseWheel != 0.0F)
            window.zoom(time_at(io.MousePos.x), std::pow(kWheelZoom, static_cast<double>(io.MouseWheel)));
        if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) window.show_all();
    }
    const float swept_px = io.MousePos.x - io.MouseClickedPos[0].x;
    if (ImGui::IsItemDeactivated()) {
        if (io.KeyShift && std::abs(swept_px) >= kLeastSweepPx) {
            const double a = time_at(io.MouseClickedPos[0].x);
            const double b = time_at(io.MousePos.x);
            window.show({std::min(a, b), std::max(a, b)});
        }
        window.settle();
    }
    if (!ImGui::IsItemActive()) return false;
    if (!io.KeyShift && io.MouseDelta.x != 0.0F) window.pan(-static_cast<double>(io.MouseDelta.x) * pixel_ms);
    return io.KeyShift;
}

}  // namespace

int time_ticks_that_fit(const Canvas& canvas, float width_px) {
    return std::max(2, static_cast<int>(width_px / (kTickRoomUnits * canvas.unit())));
}

Box plot_of(const Canvas& canvas, Box area, bool with_times) {
    const float unit = canvas.unit();
    const float line = Canvas::line_of(canvas.fonts().label);
    area.take_top(line + 1.5F * kGapUnits * unit);
    area.take_bottom(with_times ? line + kGapUnits * unit : 1.5F * kGapUnits * unit);
    area.take_left(kGutterUnits * unit);
    area.take_right(kMarginUnits * unit);
    return area;
}

void draw_time_series(Canvas& canvas, Box area, const Chart& chart, const TimeAxis& times, bool with_times,
                      TimeWindow& window, ChartPicture& picture) {
    const Box plot = plot_of(canvas, area, with_times);
    if (plot.w < 1.0F || plot.h < 1.0F) return;
    const float tick_room = kValueTickRoom * Canvas::line_of(canvas.fonts().label);
    make_picture(chart, window, static_cast<int>(plot.w),
                 std::max(3, static_cast<int>(plot.h / tick_room) + 1), picture);
    ChartPainter(canvas, area, chart, with_times, window, picture).paint(times);
    // Last, so that a frame shows all of its charts at the same range.
    if (take_mouse(plot, chart, window))
        paint_sweep(canvas, plot, ImGui::GetIO().MouseClickedPos[0].x, ImGui::GetIO().MousePos.x);
}

}  // namespace podrate::ui
