#include "day/state_strip.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr float kRowUnits = 18.0F;

struct Look {
    Rgb colour;
    float height;  // of the row
};

Look look_of(WorkState state, const Palette& palette) {
    switch (state) {
        case WorkState::harvesting: return {palette.working, 1.0F};
        case WorkState::turning:
        case WorkState::travelling: return {palette.moving, 0.6F};
        case WorkState::paused_in_crop:
        case WorkState::waiting:
        case WorkState::tipping:
        case WorkState::stopped: break;
    }
    return {palette.standing, 0.3F};
}

void draw_row(Canvas& canvas, const Box& row, const MachineSeries& machine, const TimeRange& shown) {
    if (machine.kept_ms.empty()) return;
    const StepColumn& steps = machine.step(StepMeasure::state);
    const auto x_of = [&](double at_ms) {
        return row.x + row.w * static_cast<float>((at_ms - shown.from_ms) / shown.span_ms());
    };
    const auto after = std::upper_bound(steps.at_ms.begin(), steps.at_ms.end(), shown.from_ms,
                                        [](double at_ms, Millis t) { return at_ms < t; });
    auto i = static_cast<std::size_t>(after - steps.at_ms.begin());
    if (i > 0) --i;
    for (; i < steps.at_ms.size() && steps.at_ms[i] < shown.to_ms; ++i) {
        const double end_ms = i + 1 < steps.at_ms.size() ? steps.at_ms[i + 1] : machine.kept_ms.back();
        const float from = std::max(row.x, x_of(steps.at_ms[i]));
        const float to = std::min(row.right(), x_of(end_ms));
        if (to <= from) continue;
        const Look look = look_of(static_cast<WorkState>(steps.value[i]), canvas.palette());
        const float height = row.h * look.height;
        canvas.list().AddRectFilled({from, row.bottom() - height}, {to, row.bottom()},
                                    Canvas::packed(look.colour));
    }
}

std::size_t rows_of(const DayDesk& desk) {
    return desk.together() ? desk.day().series.machines.size() : 1;
}

}  // namespace

float state_strip_height(const Canvas& canvas, const DayDesk& desk) {
    return kRowUnits * canvas.unit() * static_cast<float>(rows_of(desk));
}

void draw_state_strip(Canvas& canvas, Box area, const DayDesk& desk) {
    const float height = area.h / static_cast<float>(rows_of(desk));
    for (std::size_t i = 0; i < rows_of(desk); ++i) {
        Box row = area.take_top(height);
        row.take_bottom(2.0F);
        const std::size_t machine = desk.together() ? i : desk.machine();
        draw_row(canvas, row, desk.day().series.machines[machine], desk.window().shown());
        canvas.line({row.x, row.bottom()}, {row.right(), row.bottom()}, canvas.palette().rule, 1.0F);
    }
}

}  // namespace podrate::ui
