#include "kit/trace_paint.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr float kBandOpacity = 0.24F;
constexpr float kLineUnits = 2.2F;
constexpr float kLeastLinePx = 1.5F;
constexpr float kShapeUnits = 6.0F;
constexpr float kBeyondPx = 1000.0F;
constexpr float kNearPx = 1.5F;  // marks nearer than that are columns side by side

// Marks [from, to) without a gap between them.
void paint_band_run(ImDrawList& list, const Plot& plot, const TraceMark* from, const TraceMark* to,
                    ImU32 colour) {
    const auto count = static_cast<int>(to - from);
    const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
    if (count == 1) {
        const float x = plot.box.x + from->x_px;
        list.AddRectFilled({x - 0.5F, plot.y_of(from->band.high)}, {x + 0.5F, plot.y_of(from->band.low)},
                           colour);
        return;
    }
    list.PrimReserve((count - 1) * 6, count * 2);
    const unsigned first = list._VtxCurrentIdx;
    for (const TraceMark* mark = from; mark != to; ++mark) {
        const float x = plot.box.x + mark->x_px;
        list.PrimWriteVtx({x, plot.y_of(mark->band.high)}, white, colour);
        list.PrimWriteVtx({x, plot.y_of(mark->band.low)}, white, colour);
    }
    for (unsigned i = 0; i + 1 < static_cast<unsigned>(count); ++i) {
        const unsigned at = first + 2 * i;
        for (const unsigned corner : {at, at + 2, at + 3, at, at + 3, at + 1})
            list.PrimWriteIdx(static_cast<ImDrawIdx>(corner));
    }
}

// Where samples are farther apart than pixels.
class Polyline {
  public:
    Polyline(ImDrawList& list, ImU32 colour, float width_px)
        : list_(list), colour_(colour), width_px_(width_px) {}
    void add(ImVec2 point) { points_.push_back(point); }
    [[nodiscard]] bool begun() const { return !points_.empty(); }
    void end() {
        if (points_.size() > 1)
            list_.AddPolyline(points_.data(), static_cast<int>(points_.size()), colour_, 0, width_px_);
        points_.clear();
    }

  private:
    ImDrawList& list_;
    ImU32 colour_;
    float width_px_;
    std::vector<ImVec2> points_;
};

bool near(const std::vector<TraceMark>& marks, std::size_t i) {
    return marks[i].joined && marks[i].x_px - marks[i - 1].x_px <= kNearPx;
}

}  // namespace

Plot::Plot(const Box& where, const ValueAxis& values, double per_value)
    : box(where),
      axis(values),
      low_(static_cast<float>(values.low / per_value)),
      px_per_value_(
          static_cast<float>(static_cast<double>(where.h) * per_value / (values.high - values.low))) {}

float Plot::y_of(float value) const {
    const float y = box.bottom() - (value - low_) * px_per_value_;
    return std::clamp(y, box.y - kBeyondPx, box.bottom() + kBeyondPx);
}

float Plot::y_of_tick(int index) const {
    const double share = (axis.tick(index) - axis.low) / (axis.high - axis.low);
    return box.bottom() - box.h * static_cast<float>(share);
}

void paint_band(Canvas& canvas, const Plot& plot, const std::vector<TraceMark>& marks, Rgb colour) {
    const ImU32 shade = Canvas::packed(colour, kBandOpacity);
    for (std::size_t from = 0; from < marks.size();) {
        std::size_t to = from + 1;
        while (to < marks.size() && marks[to].joined) ++to;
        paint_band_run(canvas.list(), plot, marks.data() + from, marks.data() + to, shade);
        from = to;
    }
}

void paint_line(Canvas& canvas, const Plot& plot, const std::vector<TraceMark>& marks, Rgb colour) {
    ImDrawList& list = canvas.list();
    const ImU32 ink = Canvas::packed(colour);
    const float width_px = std::max(kLeastLinePx, kLineUnits * canvas.unit());
    const float half = width_px / 2;
    const auto count = static_cast<int>(marks.size());
    int painted = 0;
    list.PrimReserve(count * 6, count * 4);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const TraceMark& mark = marks[i];
        const bool beside = near(marks, i);
        if (mark.single && mark.joined && !beside) continue;  // the polyline's
        Extent tall = mark.line;
        if (beside) tall.take({marks[i - 1].last, marks[i - 1].last});
        const float x = plot.box.x + mark.x_px;
        list.PrimRect({x - half, plot.y_of(tall.high) - half}, {x + half, plot.y_of(tall.low) + half}, ink);
        ++painted;
    }
    list.PrimUnreserve((count - painted) * 6, (count - painted) * 4);
    Polyline polyline(list, ink, width_px);
    for (std::size_t i = 1; i < marks.size(); ++i) {
        if (!marks[i].joined || near(marks, i)) {
            polyline.end();
            continue;
        }
        const TraceMark& before = marks[i - 1];
        if (!polyline.begun() || !before.single) {
            polyline.end();
            polyline.add({plot.box.x + before.x_px, plot.y_of(before.last)});
        }
        polyline.add({plot.box.x + marks[i].x_px, plot.y_of(marks[i].first)});
    }
    polyline.end();
}

void paint_shape(Canvas& canvas, ImVec2 middle, int shape, Rgb colour) {
    const ImU32 ink = Canvas::packed(colour);
    const float r = kShapeUnits * canvas.unit();
    const float x = middle.x;
    const float y = middle.y;
    ImDrawList& list = canvas.list();
    switch (shape) {
        case 0: list.AddCircleFilled(middle, r, ink); break;
        case 1: list.AddRectFilled({x - 0.9F * r, y - 0.9F * r}, {x + 0.9F * r, y + 0.9F * r}, ink); break;
        case 2:
            list.AddTriangleFilled({x, y - 1.1F * r}, {x + 1.1F * r, y + 0.9F * r},
                                   {x - 1.1F * r, y + 0.9F * r}, ink);
            break;
        default:
            list.AddQuadFilled({x, y - 1.3F * r}, {x + 1.3F * r, y}, {x, y + 1.3F * r}, {x - 1.3F * r, y},
                               ink);
    }
}

}  // namespace podrate::ui
