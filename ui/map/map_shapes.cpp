#include "map/map_shapes.hpp"

#include <algorithm>
#include <initializer_list>

namespace podrate::ui {
namespace {

constexpr float kPinUnits = 7.5F;
constexpr float kLeastPinPx = 4.5F;
constexpr float kMachineUnits = 13.0F;
constexpr float kLeastMachinePx = 8.0F;
constexpr float kCasingUnits = 2.5F;
constexpr float kLeastCasingPx = 1.2F;

struct ShapeCorner {
    float x;
    float y;
};

// A shape about a point, filled and rimmed.
void paint_corners(Canvas& canvas, ImVec2 middle, float size, std::initializer_list<ShapeCorner> corners,
                   Rgb inside, Rgb rim, float rim_px) {
    ImDrawList& list = canvas.list();
    for (const ShapeCorner& c : corners) list.PathLineTo({middle.x + size * c.x, middle.y + size * c.y});
    list.PathFillConvex(Canvas::packed(inside));
    for (const ShapeCorner& c : corners) list.PathLineTo({middle.x + size * c.x, middle.y + size * c.y});
    list.PathStroke(Canvas::packed(rim), ImDrawFlags_Closed, rim_px);
}

void paint_disc(Canvas& canvas, ImVec2 middle, float radius, Rgb inside, Rgb rim, float rim_px) {
    canvas.list().AddCircleFilled(middle, radius, Canvas::packed(inside));
    canvas.list().AddCircle(middle, radius, Canvas::packed(rim), 0, rim_px);
}

void paint_cross(Canvas& canvas, ImVec2 m, float size, Rgb colour, float width_px) {
    const ImU32 ink = Canvas::packed(colour);
    canvas.list().AddRectFilled({m.x - size, m.y - width_px / 2}, {m.x + size, m.y + width_px / 2}, ink);
    canvas.list().AddRectFilled({m.x - width_px / 2, m.y - size}, {m.x + width_px / 2, m.y + size}, ink);
}

}  // namespace

void paint_pin(Canvas& canvas, ImVec2 middle, sim::MarkKind kind) {
    const Palette& palette = canvas.palette();
    const float size = std::max(kLeastPinPx, kPinUnits * canvas.unit());
    const float rim = std::max(1.3F, 2.0F * canvas.unit());
    switch (kind) {
        case sim::MarkKind::tip:
            paint_corners(canvas, middle, size, {{0.0F, 1.1F}, {-1.15F, -0.9F}, {1.15F, -0.9F}},
                          palette.panel, palette.text, rim);
            break;
        case sim::MarkKind::stop:
            paint_corners(canvas, middle, size,
                          {{-0.85F, -0.85F}, {0.85F, -0.85F}, {0.85F, 0.85F}, {-0.85F, 0.85F}}, palette.panel,
                          palette.text, rim);
            break;
        case sim::MarkKind::heap:
            paint_disc(canvas, middle, 0.95F * size, palette.panel, palette.text, rim);
            break;
        case sim::MarkKind::tray_check:
            paint_cross(canvas, middle, 1.25F * size + rim, palette.text, 0.7F * size + 2 * rim);
            paint_cross(canvas, middle, 1.25F * size, palette.panel, 0.7F * size);
            break;
    }
}

void paint_machine(Canvas& canvas, ImVec2 middle, std::size_t machine) {
    const Palette& palette = canvas.palette();
    const float size = std::max(kLeastMachinePx, kMachineUnits * canvas.unit());
    const float rim = std::max(2.0F, 3.0F * canvas.unit());
    const Rgb colour = palette.series[machine % kMachineShapes];
    // Twice: the outer rim of the ground's colour lifts the inner one off any cell.
    for (const bool outer : {true, false}) {
        const float by = outer ? size + rim : size;
        const Rgb inside = outer ? palette.text : colour;
        const Rgb line = outer ? palette.text : palette.panel;
        switch (machine % kMachineShapes) {
            case 0: paint_disc(canvas, middle, by, inside, line, rim); break;
            case 1:
                paint_corners(canvas, middle, by,
                              {{-0.9F, -0.9F}, {0.9F, -0.9F}, {0.9F, 0.9F}, {-0.9F, 0.9F}}, inside, line,
                              rim);
                break;
            case 2:
                paint_corners(canvas, middle, by, {{0.0F, -1.2F}, {1.15F, 0.85F}, {-1.15F, 0.85F}}, inside,
                              line, rim);
                break;
            default:
                paint_corners(canvas, middle, by,
                              {{0.0F, -1.25F}, {1.25F, 0.0F}, {0.0F, 1.25F}, {-1.25F, 0.0F}}, inside, line,
                              rim);
        }
    }
}

void paint_cased(Canvas& canvas, const ImVec2* points, int count, bool closed, Rgb colour,
                 float width_units) {
    const float width = std::max(1.2F, width_units * canvas.unit());
    const float casing = std::max(kLeastCasingPx, kCasingUnits * canvas.unit());
    const ImDrawFlags flags = closed ? ImDrawFlags_Closed : ImDrawFlags_None;
    canvas.list().AddPolyline(points, count, Canvas::packed(canvas.palette().panel), flags,
                              width + 2 * casing);
    canvas.list().AddPolyline(points, count, Canvas::packed(colour), flags, width);
}

}  // namespace podrate::ui
