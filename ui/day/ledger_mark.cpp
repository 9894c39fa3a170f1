#include "day/ledger_mark.hpp"

namespace podrate::ui {
namespace {

constexpr float kRadiusUnits = 6.0F;

Rgb colour_of(LedgerKind kind, const Palette& palette) {
    switch (kind) {
        case LedgerKind::load: return palette.hopper;
        case LedgerKind::stop: return palette.standing;
        case LedgerKind::alarm: return palette.warning;
        case LedgerKind::heap:
        case LedgerKind::tray:
        case LedgerKind::reading: break;
    }
    return palette.text;
}

}  // namespace

void paint_ledger_mark(Canvas& canvas, ImVec2 middle, LedgerKind kind, bool full) {
    const float r = kRadiusUnits * canvas.unit();
    const ImU32 ink = Canvas::packed(full ? colour_of(kind, canvas.palette()) : canvas.palette().quiet);
    ImDrawList& list = canvas.list();
    const float x = middle.x;
    const float y = middle.y;
    constexpr float kLine = 1.5F;
    switch (kind) {
        case LedgerKind::load: {
            const ImVec2 a = {x - 1.2F * r, y - 0.8F * r};
            const ImVec2 b = {x + 1.2F * r, y - 0.8F * r};
            const ImVec2 c = {x, y + 0.9F * r};
            if (full) {
                list.AddTriangleFilled(a, b, c, ink);
            } else {
                list.AddTriangle(a, b, c, ink, kLine);
            }
            break;
        }
        case LedgerKind::stop:
            if (full) {
                list.AddRectFilled({x - 0.9F * r, y - 0.9F * r}, {x + 0.9F * r, y + 0.9F * r}, ink);
            } else {
                list.AddRect({x - 0.9F * r, y - 0.9F * r}, {x + 0.9F * r, y + 0.9F * r}, ink, 0.0F, 0, kLine);
            }
            break;
        case LedgerKind::heap: list.AddCircle(middle, 0.9F * r, ink, 0, full ? 3.0F : kLine); break;
        case LedgerKind::tray:
            for (const float turn : {-1.0F, 1.0F}) {
                list.AddLine({x - 0.9F * r, y - 0.9F * r * turn}, {x + 0.9F * r, y + 0.9F * r * turn}, ink,
                             full ? 3.0F : kLine);
            }
            break;
        case LedgerKind::alarm: {  // an exclamation mark
            list.AddRectFilled({x - 1.5F, y - r}, {x + 1.5F, y + 0.3F * r}, ink);
            list.AddRectFilled({x - 1.5F, y + 0.6F * r}, {x + 1.5F, y + r}, ink);
            break;
        }
        case LedgerKind::reading:
            list.AddLine({x - r, y + 0.8F * r}, {x + r, y - 0.8F * r}, ink, 2.0F);
            if (full) list.AddCircleFilled({x + r, y - 0.8F * r}, 0.35F * r, ink);
            break;
    }
}

}  // namespace podrate::ui
