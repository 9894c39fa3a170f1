#include "day/form_view.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr float kFormUnits = 640.0F;
constexpr float kLabelShare = 0.42F;

void draw_entry(Canvas& canvas, Box row, const EntryLine& entry, bool active, const Speech& say) {
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().label;
    const float unit = canvas.unit();
    canvas.text(row.take_left(row.w * kLabelShare, 8 * unit), font, palette.quiet, say(entry.label));
    const Box behind = row.take_right(80 * unit, 8 * unit);
    canvas.text(behind, font, palette.quiet, say(entry.unit));
    const float thick = active ? 2.0F : 1.0F;
    canvas.fill(row, palette.ground, 4.0F);
    canvas.list().AddRect({row.x, row.y}, {row.right(), row.bottom()},
                          Canvas::packed(active ? palette.text : palette.rule), 4.0F * unit, 0, thick);
    const Box inner = row.inset(4 * unit);
    const std::string& text = entry.line.text();
    // What stands there to begin with is shaded: the first sign typed takes its place.
    if (active && entry.line.fresh() && !text.empty())
        canvas.fill({inner.x, inner.y, Canvas::width_of(font, text), inner.h}, palette.rule);
    canvas.text(inner, font, palette.text, text);
    if (!active) return;
    const float x = inner.x + Canvas::width_of(font, text.substr(0, entry.line.at()));
    canvas.line({x, inner.y}, {x, inner.bottom()}, palette.text, 1.5F);
}

}  // namespace

void draw_form(Canvas& canvas, const Box& area, const EntryForm& form, const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    const float line = Canvas::line_of(fonts.label);
    const float row = 1.5F * line;
    const float gap = 8 * unit;
    const float width = std::min(kFormUnits * unit, area.w - 2 * gap);
    const float height = Canvas::line_of(fonts.strong) +
                         static_cast<float>(form.lines().size()) * (row + gap) + 5 * line + 5 * gap;
    const Box box = {area.x + (area.w - width) / 2, area.y + std::max(0.0F, (area.h - height) / 2), width,
                     height};
    canvas.panel(box);
    canvas.list().AddRect({box.x, box.y}, {box.right(), box.bottom()}, Canvas::packed(palette.text),
                          8.0F * unit, 0, 2.0F);
    Box rest = box.inset(2 * gap);
    const std::string title = form.kind() == EntryKind::tray ? say(Text::entry_tray_title, {form.machine()})
                                                             : say(Text::entry_reading_title);
    canvas.text(rest.take_top(Canvas::line_of(fonts.strong), gap), fonts.strong, palette.text, title);
    for (std::size_t i = 0; i < form.lines().size(); ++i)
        draw_entry(canvas, rest.take_top(row, gap), form.lines()[i], i == form.active(), say);
    const Box told = rest.take_top(line);
    if (!form.refusal().empty()) canvas.text(told, fonts.label, palette.warning, form.refusal());
    const Text keys = form.kind() == EntryKind::tray ? Text::entry_keys : Text::entry_field_keys;
    const float taken = canvas.lines(rest, fonts.label, palette.quiet, say(keys));
    rest.take_top(taken);
    canvas.lines(rest, fonts.label, palette.quiet, say(Text::entry_then));
}

}  // namespace podrate::ui
