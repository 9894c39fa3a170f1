#include "map/cell_paint.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "report/html/cividis.hpp"

namespace podrate::ui {
namespace {

constexpr int kShades = 256;
constexpr float kHatchGapUnits = 11.0F;
constexpr float kLeastHatchGapPx = 7.0F;
constexpr float kHatchWidthPx = 0.6F;  // to either side
constexpr float kHatchOpacity = 0.6F;
constexpr double kBrightFrom = 0.5;  // cividis grows brighter evenly: from its middle on dark lines show best
constexpr int kQuadsAtOnce = 4096;   // 16-bit indices reach 65,536 corners

Rgb shade_of(double share) {
    const sim::Rgb colour = sim::cividis(share);
    return {colour[0], colour[1], colour[2]};
}

// Room for quads, asked for in parts that 16-bit indices reach.
class QuadList {
  public:
    explicit QuadList(ImDrawList& list) : list_(list), white_(ImGui::GetFontTexUvWhitePixel()) {}
    ~QuadList() { list_.PrimUnreserve(left_ * 6, left_ * 4); }
    QuadList(const QuadList&) = delete;
    QuadList& operator=(const QuadList&) = delete;

    void add(ImVec2 a, ImVec2 b, ImVec2 c, ImVec2 d, ImU32 colour) {
        if (left_ == 0) {
            list_.PrimReserve(kQuadsAtOnce * 6, kQuadsAtOnce * 4);
            left_ = kQuadsAtOnce;
        }
        --left_;
        list_.PrimQuadUV(a, b, c, d, white_, white_, white_, white_, colour);
    }

  private:
    ImDrawList& list_;
    ImVec2 white_;
    int left_ = 0;
};

class Hatcher {
  public:
    Hatcher(Canvas& canvas, ImVec2 origin)
        : quads_(canvas.list()),
          origin_(origin),
          gap_px_(std::max(kLeastHatchGapPx, kHatchGapUnits * canvas.unit())) {
        const Palette& palette = canvas.palette();
        const Rgb darkest = shade_of(0.0);
        const bool text_is_bright = contrast(palette.text, darkest) > contrast(palette.panel, darkest);
        bright_ = Canvas::packed(text_is_bright ? palette.text : palette.panel, kHatchOpacity);
        dark_ = Canvas::packed(text_is_bright ? palette.panel : palette.text, kHatchOpacity);
    }

    void hatch(const Box& box, Doubt doubt, bool upon_bright) {
        if (doubt == Doubt::sure) return;
        const ImU32 ink = upon_bright ? dark_ : bright_;
        rising(box, ink);
        if (doubt == Doubt::very_unsure) falling(box, ink);
    }

  private:
    // The first line not before that place, counted from the origin.
    [[nodiscard]] float first(float from, float origin) const {
        return origin + gap_px_ * std::ceil((from - origin) / gap_px_);
    }
    // Lines on which x + y is the same.
    void rising(const Box& box, ImU32 ink) {
        for (float sum = first(box.x + box.y, origin_.x + origin_.y); sum < box.right() + box.bottom();
             sum += gap_px_) {
            const float left = std::max(box.x, sum - box.bottom());
            const float right = std::min(box.right(), sum - box.y);
            line({left, sum - left}, {right, sum - right}, ink);
        }
    }
    // Lines on which x - y is.
    void falling(const Box& box, ImU32 ink) {
        for (float gap = first(box.x - box.bottom(), origin_.x - origin_.y); gap < box.right() - box.y;
             gap += gap_px_) {
            const float left = std::max(box.x, gap + box.y);
            const float right = std::min(box.right(), gap + box.bottom());
            line({left, left - gap}, {right, right - gap}, ink);
        }
    }
    void line(ImVec2 a, ImVec2 b, ImU32 ink) {
        quads_.add({a.x - kHatchWidthPx, a.y}, {a.x + kHatchWidthPx, a.y}, {b.x + kHatchWidthPx, b.y},
                   {b.x - kHatchWidthPx, b.y}, ink);
    }

    QuadList quads_;
    ImVec2 origin_;
    float gap_px_;
    ImU32 bright_;
    ImU32 dark_;
};

// The cells in view, row by row.
class CellPainter {
  public:
    explicit CellPainter(const MapFrame& frame) : frame_(frame), view_(frame.window.box()) {
        for (int i = 0; i < kShades; ++i)
            shades_[static_cast<std::size_t>(i)] = cell_colour(i / static_cast<double>(kShades - 1));
        const sim::MapScale& scale = frame.model.scale(frame.topic, frame.say.units);
        const double per_si = unit_of(quantity_of(frame.topic), frame.say.units).per_si;
        factor_ = per_si / (scale.high - scale.low);
        offset_ = -scale.low / (scale.high - scale.low);
    }

    void fill() {
        QuadList quads(frame_.canvas.list());
        for_each([&](const ShownCell& cell, const Box& box) {
            const ImU32 colour = shades_[static_cast<std::size_t>(share_of(cell) * (kShades - 1) + 0.5)];
            quads.add({box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()},
                      {box.x, box.bottom()}, colour);
        });
    }

    // Neighbours in a row that are alike are hatched as one.
    void hatch() {
        Hatcher hatcher(frame_.canvas, frame_.at({0.0, 0.0}));
        Box run;
        Doubt doubt = Doubt::sure;
        bool bright = false;
        sim::CellPlace last;
        for_each([&](const ShownCell& cell, const Box& box) {
            const Doubt now = cell.of(frame_.topic).doubt;
            const bool upon_bright = share_of(cell) > kBrightFrom;
            const bool beside = cell.place.row == last.row && cell.place.column == last.column + 1;
            if (beside && now == doubt && upon_bright == bright) {
                run.w = box.right() - run.x;
            } else {
                hatcher.hatch(run, doubt, bright);
                run = box;
                doubt = now;
                bright = upon_bright;
            }
            last = cell.place;
        });
        hatcher.hatch(run, doubt, bright);
    }

  private:
    [[nodiscard]] double share_of(const ShownCell& cell) const {
        return std::clamp(factor_ * static_cast<double>(cell.of(frame_.topic).kgpm2) + offset_, 0.0, 1.0);
    }
    [[nodiscard]] std::int32_t row_at(double north_m) const {
        return frame_.model.origin_cell.row +
               static_cast<std::int32_t>(std::floor(north_m / frame_.model.cell_m));
    }

    template <class See>
    void for_each(See see) const {
        const MapModel& model = frame_.model;
        const std::int32_t top = row_at(view_.north_m);
        auto cell =
            std::lower_bound(model.cells.begin(), model.cells.end(), row_at(view_.south_m),
                             [](const ShownCell& one, std::int32_t row) { return one.place.row < row; });
        for (; cell != model.cells.end() && cell->place.row <= top; ++cell) {
            const sim::EastNorth corner = model.south_west(*cell);
            if (corner.east_m > view_.east_m || corner.east_m + model.cell_m < view_.west_m) continue;
            const ImVec2 low = frame_.at(corner);
            const ImVec2 high = frame_.at({corner.east_m + model.cell_m, corner.north_m + model.cell_m});
            see(*cell, Box{low.x, high.y, high.x - low.x, low.y - high.y});
        }
    }

    const MapFrame& frame_;
    PlaneBox view_;
    std::array<ImU32, kShades> shades_;
    double factor_;
    double offset_;
};

}  // namespace

ImU32 cell_colour(double share) {
    return Canvas::packed(shade_of(share));
}

void paint_hatch(Canvas& canvas, const Box& box, Doubt doubt, double share, ImVec2 origin) {
    Hatcher(canvas, origin).hatch(box, doubt, share > kBrightFrom);
}

void paint_cells(const MapFrame& frame) {
    CellPainter painter(frame);
    painter.fill();
    painter.hatch();
}

}  // namespace podrate::ui
