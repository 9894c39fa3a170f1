#include "map/map_legend.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "log/units.hpp"
#include "map/cell_paint.hpp"
#include "map/map_shapes.hpp"
#include "map/map_words.hpp"
#include "map/way_paint.hpp"

namespace podrate::ui {
namespace {

constexpr float kMostShare = 0.3F;  // of the panel's height
constexpr float kSwatchUnits = 30.0F;
constexpr float kLeastSwatchPx = 22.0F;
constexpr float kLegendGapUnits = 8.0F;
constexpr float kLeastLegendGapPx = 5.0F;
constexpr float kBetweenGaps = 2.6F;
constexpr float kColourBarUnits = 16.0F;
constexpr float kLeastColourBarPx = 10.0F;
constexpr float kColourBarWidthUnits = 560.0F;
constexpr double kOften = 0.5;

struct LegendEntry {
    std::string words;
    std::function<void(Canvas&, const Box&)> swatch;
};

ImVec2 centre_of(const Box& box) {
    return {box.x + box.w / 2, box.y + box.h / 2};
}

LegendEntry doubt_entry(const Speech& say, Doubt doubt, double sd_share) {
    return {say(Text::map_unsure, {say.percent(sim::kReach90 * sd_share)}),
            [doubt](Canvas& canvas, const Box& box) {
                const Box inner = {box.x, box.y + 0.15F * box.h, box.w, 0.7F * box.h};
                canvas.list().AddRectFilled({inner.x, inner.y}, {inner.right(), inner.bottom()},
                                            cell_colour(kOften));
                paint_hatch(canvas, inner, doubt, kOften, {inner.x, inner.y});
            }};
}

LegendEntry way_entry(const Speech& say, Text words, bool dotted) {
    return {say(words, {std::to_string(kWayMinutes)}), [dotted](Canvas& canvas, const Box& box) {
                const float y = box.y + box.h / 2;
                if (!dotted) {
                    canvas.line({box.x, y}, {box.right(), y}, canvas.palette().text, 4.0F);
                    return;
                }
                const float half = std::max(1.8F, 3.0F * canvas.unit());
                for (const float share : {0.17F, 0.5F, 0.83F}) {
                    const float x = box.x + share * box.w;
                    canvas.fill({x - half, y - half, 2 * half, 2 * half}, canvas.palette().text);
                }
            }};
}

// The weightiest first.
std::vector<LegendEntry> entries_of(const MapModel& model, MapTopic topic, const Speech& say) {
    std::vector<LegendEntry> entries;
    const sim::CellFigure& figure = figure_of(topic);
    entries.push_back(doubt_entry(say, Doubt::unsure, figure.unsure_share));
    entries.push_back(doubt_entry(say, Doubt::very_unsure, figure.very_unsure_share));
    entries.push_back(way_entry(say, Text::map_before, false));
    entries.push_back(way_entry(say, Text::map_after, true));
    for (int i = 0; i < sim::kMarkKinds; ++i) {
        const auto kind = static_cast<sim::MarkKind>(i);
        if (std::none_of(model.pins.begin(), model.pins.end(),
                         [kind](const MapPin& pin) { return pin.kind == kind; }))
            continue;
        entries.push_back({say(word_for(kind)), [kind](Canvas& canvas, const Box& box) {
                               paint_pin(canvas, centre_of(box), kind);
                           }});
    }
    return entries;
}

float swatch_width(const Canvas& canvas) {
    return std::max(kLeastSwatchPx, kSwatchUnits * canvas.unit());
}

float legend_gap(const Canvas& canvas) {
    return std::max(kLeastLegendGapPx, kLegendGapUnits * canvas.unit());
}

float colour_bar_height(const Canvas& canvas) {
    return std::max(kLeastColourBarPx, kColourBarUnits * canvas.unit());
}

// Where the entries come to lie in rows of that width, beneath one another from 0; those beyond `most` rows
// have no place.
std::vector<Box> entries_placed(const Canvas& canvas, const std::vector<LegendEntry>& entries, float width,
                                int most) {
    const float line = Canvas::line_of(canvas.fonts().label);
    std::vector<Box> boxes;
    float x = 0.0F;
    int row = 0;
    for (const LegendEntry& entry : entries) {
        const float w = swatch_width(canvas) + legend_gap(canvas) +
                        Canvas::width_of(canvas.fonts().label, entry.words) + 1.0F;
        if (x > 0.0F && x + w > width) {
            x = 0.0F;
            ++row;
        }
        if (row >= most || w > width) break;
        boxes.push_back({x, static_cast<float>(row) * line, w, line});
        x += w + kBetweenGaps * legend_gap(canvas);
    }
    return boxes;
}

int most_rows(const Canvas& canvas, float panel_height) {
    const float line = Canvas::line_of(canvas.fonts().label);
    const float left = kMostShare * panel_height - colour_bar_height(canvas) - line;
    return std::max(0, static_cast<int>(left / line));
}

// "5.0"; at the ends the colour stands for all beyond as well.
std::string number_at(const MapFrame& frame, int step) {
    const sim::MapScale& scale = frame.model.scale(frame.topic, frame.say.units);
    const int decimals = unit_of(quantity_of(frame.topic), frame.say.units).decimals;
    const std::string number = frame.say.number(scale.low + step * scale.step, decimals);
    if (step == 0) return frame.say(Text::map_or_less, {number});
    return step == scale.steps() ? frame.say(Text::map_or_more, {number}) : number;
}

void draw_colour_bar(const MapFrame& frame, const Box& area) {
    Canvas& canvas = frame.canvas;
    ImFont* font = canvas.fonts().label;
    const sim::MapScale& scale = frame.model.scale(frame.topic, frame.say.units);
    const float room =
        Canvas::width_of(font, number_at(frame, scale.steps())) + kLegendGapUnits * canvas.unit();
    Box bar = {area.x, area.y, std::min(area.w, kColourBarWidthUnits * canvas.unit()),
               colour_bar_height(canvas)};
    bar.take_left(room / 2);
    bar.take_right(room / 2);
    const int steps = scale.steps();
    // Cividis' own seventeen stops: straight between them as in cells.
    constexpr int kParts = 16;
    for (int i = 0; i < kParts; ++i) {
        const ImU32 from = cell_colour(i / static_cast<double>(kParts));
        const ImU32 to = cell_colour((i + 1) / static_cast<double>(kParts));
        canvas.list().AddRectFilledMultiColor(
            {bar.x + bar.w * static_cast<float>(i) / kParts, bar.y},
            {bar.x + bar.w * static_cast<float>(i + 1) / kParts, bar.bottom()}, from, to, to, from);
    }
    canvas.list().AddRect({bar.x, bar.y}, {bar.right(), bar.bottom()},
                          Canvas::packed(canvas.palette().quiet));
    const int every = std::max(1, static_cast<int>(std::ceil(room * static_cast<float>(steps) / bar.w)));
    for (int i = 0; i <= steps; i += every) {
        const float x = bar.x + bar.w * static_cast<float>(i) / static_cast<float>(steps);
        canvas.line({x, bar.bottom()}, {x, bar.bottom() + 3 * canvas.unit()}, canvas.palette().quiet, 1.0F);
        canvas.text({x - room / 2, bar.bottom() + 1.0F, room, Canvas::line_of(font)}, font,
                    canvas.palette().text, number_at(frame, i), Align::centre);
    }
}

}  // namespace

float map_legend_height(Canvas& canvas, const Box& area, const MapModel& model, MapTopic topic,
                        const Speech& say) {
    const float line = Canvas::line_of(canvas.fonts().label);
    const std::vector<Box> boxes =
        entries_placed(canvas, entries_of(model, topic, say), area.w, most_rows(canvas, area.h));
    return colour_bar_height(canvas) + line + (boxes.empty() ? 0.0F : boxes.back().bottom());
}

void draw_map_legend(const MapFrame& frame, Box area) {
    Canvas& canvas = frame.canvas;
    ImFont* font = canvas.fonts().label;
    const float line = Canvas::line_of(font);
    draw_colour_bar(frame, area.take_top(colour_bar_height(canvas) + line));
    const std::vector<LegendEntry> entries = entries_of(frame.model, frame.topic, frame.say);
    const std::vector<Box> boxes =
        entries_placed(canvas, entries, area.w, static_cast<int>(std::lround(area.h / line)));
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        Box box = {area.x + boxes[i].x, area.y + boxes[i].y, boxes[i].w, boxes[i].h};
        entries[i].swatch(canvas, box.take_left(swatch_width(canvas), legend_gap(canvas)));
        canvas.text(box, font, canvas.palette().text, entries[i].words);
    }
}

void draw_scale_bar(const MapFrame& frame) {
    Canvas& canvas = frame.canvas;
    ImFont* font = canvas.fonts().label;
    const float unit = canvas.unit();
    const Unit& metre = unit_of(Quantity::distance, frame.say.units);
    const double m_per_px = frame.window.shown().m_per_px;
    const double most = 0.3 * static_cast<double>(frame.plot.w) * m_per_px * metre.per_si;
    double length = metre.step;
    for (double ten = metre.step; ten <= most; ten *= 10.0) {
        for (const double times : {1.0, 2.0, 5.0}) {
            if (times * ten <= most) length = times * ten;
        }
    }
    const double length_m = length / metre.per_si;
    const auto long_px = static_cast<float>(length_m / m_per_px);
    const std::string words = with_unit(frame.say, Quantity::distance, length_m);
    const float line = Canvas::line_of(font);
    const float gap = kLegendGapUnits * unit;
    const float width = long_px + Canvas::width_of(font, words) + 3 * gap;
    if (width > frame.plot.w) return;
    const Box box = {frame.plot.x + gap, frame.plot.bottom() - gap - line, width, line};
    canvas.list().AddRectFilled({box.x, box.y}, {box.right(), box.bottom()},
                                Canvas::packed(canvas.palette().panel, 0.85F), gap / 2);
    const float y = box.bottom() - 0.3F * line;
    const float x = box.x + gap;
    canvas.line({x, y}, {x + long_px, y}, canvas.palette().text, 2.5F);
    for (const float end : {x, x + long_px})
        canvas.line({end, y - 0.4F * line}, {end, y + 1.0F}, canvas.palette().text, 2.5F);
    canvas.text({x + long_px + gap, box.y, box.right() - x - long_px - gap, line}, font,
                canvas.palette().text, words);
}

void draw_north(const MapFrame& frame) {
    Canvas& canvas = frame.canvas;
    ImFont* font = canvas.fonts().label;
    const float line = Canvas::line_of(font);
    const float gap = kLegendGapUnits * canvas.unit();
    const std::string words = frame.say(Text::map_north);
    const float word = Canvas::width_of(font, words);
    const Box box = {frame.plot.right() - gap - word - line - 3 * gap, frame.plot.y + gap,
                     word + line + 3 * gap, 1.4F * line};
    canvas.list().AddRectFilled({box.x, box.y}, {box.right(), box.bottom()},
                                Canvas::packed(canvas.palette().panel, 0.85F), gap / 2);
    canvas.text({box.x + gap, box.y, word + 1.0F, box.h}, font, canvas.palette().text, words);
    // The plane's own north leans away from the true one by the convergence.
    const double lean = -frame.model.convergence_deg * 3.14159265358979323846 / 180.0;
    const auto cosine = static_cast<float>(std::cos(lean));
    const auto sine = static_cast<float>(std::sin(lean));
    const ImVec2 middle = {box.right() - gap - line / 2, box.y + box.h / 2};
    const auto at = [&](float x, float y) {
        return ImVec2{middle.x + 0.6F * line * (cosine * x - sine * y),
                      middle.y + 0.6F * line * (sine * x + cosine * y)};
    };
    const ImU32 ink = Canvas::packed(canvas.palette().text);
    canvas.list().AddTriangleFilled(at(0.0F, -1.0F), at(0.5F, 0.8F), at(0.0F, 0.4F), ink);
    canvas.list().AddTriangleFilled(at(0.0F, -1.0F), at(0.0F, 0.4F), at(-0.5F, 0.8F), ink);
}

}  // namespace podrate::ui
