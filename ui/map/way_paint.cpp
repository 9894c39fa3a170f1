#include "map/way_paint.hpp"

#include <algorithm>
#include <cmath>

#include "map/map_shapes.hpp"

namespace podrate::ui {
namespace {

constexpr float kOutlineUnits = 2.0F;
constexpr float kWayUnits = 4.0F;
constexpr float kDotUnits = 3.0F;
constexpr float kLeastDotPx = 1.8F;
constexpr float kDotGaps = 4.0F;     // from dot to dot, in their half widths
constexpr float kThinnedPx = 1.5F;   // points of a way nearer than that are one
constexpr float kReachInPx = 40.0F;  // shapes that reach into the plot
constexpr float kMachineReachUnits = 20.0F;
constexpr float kChipUnits = 6.0F;
constexpr float kChipOpacity = 0.85F;
constexpr TimeUs kWayUs = kWayMinutes * 60 * kSecondUs;

float apart_px(ImVec2 a, ImVec2 b) {
    return std::sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

// Words on a ground that lifts them off the cells.
void paint_chip(const MapFrame& frame, const Box& box, const std::string& words, Rgb colour) {
    Canvas& canvas = frame.canvas;
    canvas.list().AddRectFilled({box.x, box.y}, {box.right(), box.bottom()},
                                Canvas::packed(canvas.palette().panel, kChipOpacity),
                                kChipUnits / 2 * canvas.unit());
    canvas.text(box, canvas.fonts().label, colour, words, Align::centre);
}

ImVec2 chip_size(const Canvas& canvas, const std::string& words) {
    ImFont* font = canvas.fonts().label;
    return {Canvas::width_of(font, words) + 2 * kChipUnits * canvas.unit(), Canvas::line_of(font)};
}

bool boxes_overlap(const Box& a, const Box& b) {
    return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

// Right of a machine, else left, above or below, where that is free; right again where nothing is.
Box label_beside(const MapFrame& frame, ImVec2 at, float reach, const std::string& words,
                 const std::vector<Box>& taken) {
    const ImVec2 size = chip_size(frame.canvas, words);
    const ImVec2 corners[] = {{at.x + reach, at.y - size.y / 2},
                              {at.x - reach - size.x, at.y - size.y / 2},
                              {at.x - size.x / 2, at.y - reach - size.y},
                              {at.x - size.x / 2, at.y + reach}};
    for (const ImVec2& corner : corners) {
        const Box box = {std::round(corner.x), std::round(corner.y), size.x, size.y};
        const bool free = std::none_of(taken.begin(), taken.end(),
                                       [&box](const Box& other) { return boxes_overlap(box, other); });
        if (free && box.x >= frame.plot.x && box.right() <= frame.plot.right()) return box;
    }
    return {std::round(corners[0].x), std::round(corners[0].y), size.x, size.y};
}

// Stretches of the way between two points, thinned; each stretch goes to `draw`.
template <class Draw>
void for_each_stretch(const MapFrame& frame, const PlaceTrack& track, std::size_t from, std::size_t to,
                      Draw draw) {
    std::vector<ImVec2> points;
    for (std::size_t i = from; i < to; ++i) {
        if (!points.empty() && !track.joined(i)) {
            draw(points);
            points.clear();
        }
        const ImVec2 at = frame.at(track.place(i));
        if (points.empty() || apart_px(points.back(), at) >= kThinnedPx || i + 1 == to) points.push_back(at);
    }
    if (!points.empty()) draw(points);
}

// At even distances along the way, from `left_px` on; returns what is left to the next.
float paint_dots(const MapFrame& frame, const std::vector<ImVec2>& points, float half, float left_px) {
    const Palette& palette = frame.canvas.palette();
    const ImU32 ink = Canvas::packed(palette.text);
    const ImU32 rim = Canvas::packed(palette.panel);
    for (std::size_t i = 1; i < points.size(); ++i) {
        const float length = apart_px(points[i - 1], points[i]);
        for (; left_px <= length; left_px += 2 * kDotGaps * half) {
            const float share = left_px / length;
            const ImVec2 at = {points[i - 1].x + share * (points[i].x - points[i - 1].x),
                               points[i - 1].y + share * (points[i].y - points[i - 1].y)};
            if (!frame.in_plot(at, half)) continue;
            frame.canvas.list().AddRectFilled({at.x - 1.8F * half, at.y - 1.8F * half},
                                              {at.x + 1.8F * half, at.y + 1.8F * half}, rim);
            frame.canvas.list().AddRectFilled({at.x - half, at.y - half}, {at.x + half, at.y + half}, ink);
        }
        left_px -= length;
    }
    return left_px;
}

}  // namespace

void paint_outlines(const MapFrame& frame) {
    std::vector<ImVec2> corners;
    for (const FieldShape& field : frame.model.fields) {
        for (const auto& ring : field.rings) {
            corners.clear();
            for (const sim::EastNorth& corner : ring) corners.push_back(frame.at(corner));
            paint_cased(frame.canvas, corners.data(), static_cast<int>(corners.size()), true,
                        frame.canvas.palette().text, kOutlineUnits);
        }
    }
}

void paint_names(const MapFrame& frame) {
    std::vector<Box> taken;
    for (const FieldShape& field : frame.model.fields) {
        const ImVec2 low = frame.at({field.box.west_m, field.box.south_m});
        const ImVec2 high = frame.at({field.box.east_m, field.box.north_m});
        const float left = std::max(low.x, frame.plot.x);
        const float right = std::min(high.x, frame.plot.right());
        const float top = std::max(high.y, frame.plot.y);
        const float bottom = std::min(low.y, frame.plot.bottom());
        const ImVec2 size = chip_size(frame.canvas, field.name);
        if (right - left < size.x || bottom - top < size.y) continue;
        const Box box = {std::round((left + right - size.x) / 2), std::round((top + bottom - size.y) / 2),
                         size.x, size.y};
        if (std::any_of(taken.begin(), taken.end(),
                        [&](const Box& other) { return boxes_overlap(box, other); }))
            continue;
        taken.push_back(box);
        paint_chip(frame, box, field.name, frame.canvas.palette().text);
    }
}

void paint_pins(const MapFrame& frame) {
    for (const MapPin& pin : frame.model.pins) {
        const ImVec2 at = frame.at(pin.place);
        if (frame.in_plot(at, kReachInPx)) paint_pin(frame.canvas, at, pin.kind);
    }
}

void paint_way(const MapFrame& frame) {
    const PlaceTrack& track = frame.model.machines[frame.moment.machine].track;
    const std::size_t now = track.from(frame.moment.at_us);
    for_each_stretch(frame, track, track.from(frame.moment.at_us - kWayUs), std::min(now + 1, track.size()),
                     [&](const std::vector<ImVec2>& points) {
                         paint_cased(frame.canvas, points.data(), static_cast<int>(points.size()), false,
                                     frame.canvas.palette().text, kWayUnits);
                     });
    const float half = std::max(kLeastDotPx, kDotUnits * frame.canvas.unit());
    float left_px = 2 * kDotGaps * half;
    for_each_stretch(
        frame, track, now, track.from(frame.moment.at_us + kWayUs),
        [&](const std::vector<ImVec2>& points) { left_px = paint_dots(frame, points, half, left_px); });
}

void paint_machines(const MapFrame& frame) {
    struct Standing {
        std::size_t machine;
        ImVec2 at;
        Box label;
    };
    const float reach = kMachineReachUnits * frame.canvas.unit();
    std::vector<Standing> standing;
    std::vector<Box> taken;
    for (std::size_t i = 0; i < frame.model.machines.size(); ++i) {
        const auto place = frame.model.place_at(i, frame.moment.at_us);
        if (!place || !frame.in_plot(frame.at(*place), kReachInPx)) continue;
        const ImVec2 at = frame.at(*place);
        // The chosen one comes first to its label, and last to be painted.
        standing.insert(i == frame.moment.machine ? standing.begin() : standing.end(), {i, at, {}});
        taken.push_back(Box{at.x - reach, at.y - reach, 2 * reach, 2 * reach}.inset(1.0F));
    }
    for (Standing& one : standing) {
        one.label = label_beside(frame, one.at, reach, frame.model.machines[one.machine].id, taken);
        taken.push_back(one.label);
    }
    for (auto one = standing.rbegin(); one != standing.rend(); ++one) {
        paint_chip(frame, one->label, frame.model.machines[one->machine].id, frame.canvas.palette().text);
        paint_machine(frame.canvas, one->at, one->machine);
    }
}

}  // namespace podrate::ui
