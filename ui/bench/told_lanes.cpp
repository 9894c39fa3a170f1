#include "bench/told_lanes.hpp"

#include <algorithm>

#include "bench/told_words.hpp"

namespace podrate::ui {
namespace {

constexpr float kLaneGapUnits = 2.0F;
constexpr float kLeastSpanPx = 3.0F;
constexpr float kRightShare = 0.4F;  // height of an alarm that had its reason
constexpr float kNothingShare = 0.9F;
constexpr float kDueShare = 0.7F;
constexpr float kMissUnits = 4.0F;  // half of the cross on an episode that was missed
constexpr float kSweptShade = 0.3F;

// From log time to pixels of the charts.
class LaneScale {
  public:
    LaneScale(const Box& plot, const Bench& bench)
        : plot_(plot),
          shown_(bench.window().shown()),
          origin_s_(static_cast<double>(bench.day().series.origin_us) / 1e6) {}

    [[nodiscard]] double ms_of_unix(double unix_s) const { return (unix_s - origin_s_) * 1e3; }
    [[nodiscard]] float x_of_ms(double at_ms) const {
        return plot_.x + plot_.w * static_cast<float>((at_ms - shown_.from_ms) / shown_.span_ms());
    }
    [[nodiscard]] double ms_of_x(float x) const {
        return shown_.from_ms + shown_.span_ms() * static_cast<double>((x - plot_.x) / plot_.w);
    }
    // Of a span, as high as that share of the lane from its lower edge; without width where it is not shown.
    [[nodiscard]] Box block(const Box& lane, double from_ms, double to_ms, float share) const {
        const float from = std::max(plot_.x, x_of_ms(from_ms));
        const float to = std::min(plot_.right(), std::max(x_of_ms(to_ms), x_of_ms(from_ms) + kLeastSpanPx));
        if (to <= from) return {from, lane.y, 0.0F, 0.0F};
        return {from, lane.bottom() - share * lane.h, to - from, share * lane.h};
    }
    [[nodiscard]] Box block(const Box& lane, const sim::AlarmSpan& span, float share) const {
        return block(lane, ms_of_unix(span.start_unix_s), ms_of_unix(span.end_unix_s), share);
    }

  private:
    Box plot_;
    TimeRange shown_;
    double origin_s_;
};

void outline(Canvas& canvas, const Box& box, Rgb colour) {
    canvas.list().AddRect({box.x, box.y}, {box.right(), box.bottom()}, Canvas::packed(colour), 0.0F, 0,
                          1.5F * canvas.unit());
}

void cross(Canvas& canvas, const Box& box, Rgb colour) {
    const float reach = kMissUnits * canvas.unit();
    const ImVec2 middle = {box.x + box.w / 2, box.y + box.h / 2};
    canvas.line({middle.x - reach, middle.y - reach}, {middle.x + reach, middle.y + reach}, colour, 2.0F);
    canvas.line({middle.x - reach, middle.y + reach}, {middle.x + reach, middle.y - reach}, colour, 2.0F);
}

// Told: filled. Missed: hollow, with a cross. What nobody looked at has no ground line.
void draw_due(Canvas& canvas, const Box& lane, const LaneScale& scale, const Bench& bench) {
    const Palette& palette = canvas.palette();
    const sim::AlarmTruth& truth = bench.book().truth(bench.machine(), *bench.alarm());
    for (const sim::AlarmSpan& span : truth.looked_at) {
        const Box box = scale.block(lane, span, 0.15F);
        if (box.w > 0.0F) canvas.fill(box, palette.rule);
    }
    const sim::AlarmOutcomes outcomes = bench.book().outcomes(true);
    for (std::size_t i = 0; i < outcomes.due.size(); ++i) {
        const Box box = scale.block(lane, outcomes.due[i], kDueShare);
        if (box.w <= 0.0F) continue;
        if (outcomes.told_after_s[i] >= 0.0) {
            canvas.fill(box, palette.working);
        } else {
            outline(canvas, box, palette.warning);
            cross(canvas, box, palette.warning);
        }
    }
}

// For nothing: tall and dark. With a reason: low and pale.
void draw_alarms_of(Canvas& canvas, const Box& lane, const LaneScale& scale, const Bench& bench, bool after) {
    const sim::AlarmOutcomes outcomes = bench.book().outcomes(after);
    for (const bool nothing : {false, true}) {
        for (std::size_t i = 0; i < outcomes.alarms.size(); ++i) {
            if (outcomes.for_nothing[i] != nothing) continue;
            const Box box = scale.block(lane, outcomes.alarms[i], nothing ? kNothingShare : kRightShare);
            if (box.w > 0.0F) canvas.fill(box, nothing ? canvas.palette().warning : canvas.palette().quiet);
        }
    }
}

void draw_swept(Canvas& canvas, const Box& lane, const LaneScale& scale, const MarkBegun& mark) {
    const auto [from_ms, to_ms] = std::minmax(mark.from_ms, mark.to_ms);
    const Box box = scale.block(lane, from_ms, to_ms, 1.0F);
    if (box.w <= 0.0F) return;
    canvas.list().AddRectFilled({box.x, box.y}, {box.right(), box.bottom()},
                                Canvas::packed(canvas.palette().text, kSweptShade));
    outline(canvas, box, canvas.palette().text);
}

// While E has begun one, its end goes with the cursor.
std::optional<MarkBegun> mark_of(const Bench& bench) {
    std::optional<MarkBegun> mark = bench.mark_begun();
    if (mark && mark->from_ms == mark->to_ms && bench.window().cursor_ms())
        mark->to_ms = *bench.window().cursor_ms();
    return mark;
}

void take_mouse(const Box& due, const Box& below, const LaneScale& scale, Bench& bench) {
    const float x = ImGui::GetIO().MousePos.x;
    const TimeRange& whole = bench.window().whole();
    const double at_ms = std::clamp(scale.ms_of_x(x), whole.from_ms, whole.to_ms);
    ImGui::SetCursorScreenPos({due.x, due.y});
    ImGui::InvisibleButton("due lane", {due.w, due.h});
    if (ImGui::IsItemActive()) bench.sweep_mark(at_ms, ImGui::IsItemActivated());
    if (ImGui::IsItemDeactivated()) bench.end_sweep();
    ImGui::SetCursorScreenPos({below.x, below.y});
    if (ImGui::InvisibleButton("alarm lanes", {below.w, below.h})) bench.go_to(at_ms);
}

}  // namespace

float told_lanes_height(const Canvas& canvas) {
    return 4 * Canvas::line_of(canvas.fonts().label) + 3 * kLaneGapUnits * canvas.unit();
}

void draw_told_lanes(Canvas& canvas, Box area, const Box& plot, Bench& bench) {
    const float line = Canvas::line_of(canvas.fonts().label);
    const float gap = kLaneGapUnits * canvas.unit();
    const Palette& palette = canvas.palette();
    const LaneScale scale(plot, bench);
    Box head = area.take_top(line, gap);
    head.w = plot.right() - head.x;
    canvas.text(head, canvas.fonts().label, palette.text, strip_words(bench));
    constexpr Text kLanes[] = {Text::bench_due, Text::bench_before, Text::bench_after};
    Box lanes[3];
    for (int i = 0; i < 3; ++i) {
        const Box whole = area.take_top(line, gap);
        const Box label = {whole.x, whole.y, plot.x - whole.x - 6.0F * canvas.unit(), whole.h};
        canvas.text(label, canvas.fonts().label, palette.quiet, bench.speech()(kLanes[i]), Align::right);
        lanes[i] = {plot.x, whole.y, plot.w, whole.h};
        canvas.line({plot.x, whole.bottom()}, {plot.right(), whole.bottom()}, palette.rule, 1.0F);
    }
    if (bench.book().counted()) {
        draw_due(canvas, lanes[0], scale, bench);
        draw_alarms_of(canvas, lanes[1], scale, bench, false);
        draw_alarms_of(canvas, lanes[2], scale, bench, true);
    }
    if (const auto mark = mark_of(bench)) draw_swept(canvas, lanes[0], scale, *mark);
    if (const auto cursor_ms = bench.window().cursor_ms()) {
        const float x = scale.x_of_ms(*cursor_ms);
        if (x >= plot.x && x <= plot.right())
            canvas.line({x, lanes[0].y}, {x, lanes[2].bottom()}, palette.text, 1.0F);
    }
    take_mouse(lanes[0], {plot.x, lanes[1].y, plot.w, lanes[2].bottom() - lanes[1].y}, scale, bench);
}

}  // namespace podrate::ui
