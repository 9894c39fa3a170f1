#include "driver/answer_targets.hpp"

#include <algorithm>
#include <sstream>

namespace podrate::ui {
namespace {

constexpr float kTargetGapUnits = 12.0F;  // between targets, so that a shaking finger meets one alone
constexpr float kTargetInsetUnits = 10.0F;

// No narrower than its longest word, and than what it takes in three lines.
float slot_width(const Canvas& canvas, const std::string& words, float least_px) {
    ImFont* font = canvas.fonts().label;
    float widest = Canvas::width_of(font, words) / 3;
    std::istringstream parts(words);
    for (std::string part; parts >> part;) widest = std::max(widest, Canvas::width_of(font, part));
    return std::max(least_px, std::ceil(widest) + 2 * kTargetInsetUnits * canvas.unit() + 1.0F);
}

void write_centred(Canvas& canvas, const Box& box, Rgb colour, const std::string& words) {
    ImFont* font = canvas.fonts().label;
    const Box inner = {box.x + kTargetInsetUnits * canvas.unit(), box.y,
                       box.w - 2 * kTargetInsetUnits * canvas.unit(), box.h};
    const float height = Canvas::line_of(font) * Canvas::lines_of(font, words, inner.w);
    canvas.lines({inner.x, inner.y + (inner.h - height) / 2, inner.w, height + 1.0F}, font, colour, words,
                 Align::centre);
}

bool draw_target(Canvas& canvas, const Box& box, const char* id, const std::string& words) {
    ImGui::SetCursorScreenPos({box.x, box.y});
    const bool touched = ImGui::InvisibleButton(id, {box.w, box.h});
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    canvas.fill(box, palette.panel, 8.0F);
    const float line = std::max(1.5F, (ImGui::IsItemActive() ? 5.0F : 2.0F) * unit);
    canvas.list().AddRect({box.x, box.y}, {box.right(), box.bottom()}, Canvas::packed(palette.quiet),
                          8.0F * unit, 0, line);
    write_centred(canvas, box, palette.text, words);
    return touched;
}

}  // namespace

std::optional<AlarmAnswer> draw_answer_targets(Canvas& canvas, Box& area, const AnswerWords& words,
                                               float touch_px) {
    std::optional<AlarmAnswer> touched;
    if (touch_px <= 0.0F) return touched;
    const float gap = kTargetGapUnits * canvas.unit();
    const auto slot = [&](const std::string& of, float least_px) {
        const Box box = area.take_right(slot_width(canvas, of, least_px), gap);
        return Box{box.x, box.y, box.w, std::max(box.h, touch_px)};
    };
    // Three at most: while an alarm is new, bringing others back waits (its key does not).
    if (!words.bring_back.empty() && words.note.empty() &&
        draw_target(canvas, slot(words.bring_back, touch_px), "bring back", words.bring_back))
        touched = AlarmAnswer::bring_back;
    if (!words.put_off.empty() &&
        draw_target(canvas, slot(words.put_off, touch_px), "put off", words.put_off))
        touched = AlarmAnswer::put_off;
    if (!words.note.empty() && draw_target(canvas, slot(words.note, touch_px), "note", words.note))
        touched = AlarmAnswer::note;
    if (!words.noted.empty())
        write_centred(canvas, slot(words.noted, touch_px), canvas.palette().quiet, words.noted);
    return touched;
}

}  // namespace podrate::ui
