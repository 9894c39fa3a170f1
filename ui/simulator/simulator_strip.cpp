#include "simulator/simulator_strip.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::ui {
namespace {

constexpr float kLines = 5.0F;
constexpr float kOnePageEms = 70.0F;   // of the smallest type, side by side
constexpr float kTwoByTwoEms = 44.0F;  // on a screen that narrow, which stands upright: two above two
constexpr float kMarkUnits = 38.0F;
constexpr float kEdgeUnits = 14.0F;  // clear of the dashes
constexpr float kGapUnits = 8.0F;

enum class Arrangement { one_row, two_rows, two_pages };

Arrangement arrangement_of(const Canvas& canvas, float width_px) {
    const float ems = width_px / canvas.fonts().label->FontSize;
    if (ems >= kOnePageEms) return Arrangement::one_row;
    return ems < kTwoByTwoEms ? Arrangement::two_rows : Arrangement::two_pages;
}

// A line of cells, each with its share of the width.
struct Cell {
    std::string words;
    float share;
    Rgb colour;
    Align align = Align::left;
};

class StripSetter {
  public:
    StripSetter(Canvas& canvas, const SimulatorFigures& figures)
        : canvas_(canvas), f_(figures), line_(Canvas::line_of(canvas.fonts().label)) {}

    void controls(Box area) {
        for (const ControlLine& control : f_.controls) {
            if (control.state.empty()) {
                row(area,
                    {{control.key, kKeyShare, colours().rate},
                     {control.what, 1.0F - kKeyShare, colours().quiet}},
                    3);
                continue;
            }
            row(area, {{control.key, kKeyShare, colours().rate},
                       {control.what, kWhatShare, colours().quiet},
                       {control.state, 1.0F - kKeyShare - kWhatShare, colours().text}});
        }
    }

    // In two columns; a fault under way is a filled plate, not a colour alone.
    void faults(Box area) {
        const std::size_t half = (f_.faults.size() + 1) / 2;
        Box left = area.take_left((area.w - gap()) / 2, gap());
        for (std::size_t i = 0; i < f_.faults.size(); ++i) fault(i < half ? left : area, f_.faults[i]);
    }

    void beside(Box area) {
        head(area, {{f_.say(Text::sim_true), kNameShare + kTruthShare, colours().quiet, Align::right},
                    {f_.say(Text::sim_told), kToldShare, colours().quiet, Align::right},
                    {f_.say(Text::sim_so_far), kVerdictShare + kSoFarShare, colours().quiet, Align::right}});
        for (const BesideLine& line : f_.beside) {
            const Rgb colour = line.holds ? colours().working : colours().warning;
            row(area, {{line.name, kNameShare, colours().quiet},
                       {line.truth, kTruthShare, colours().text, Align::right},
                       {line.told, kToldShare, colours().rate, Align::right},
                       {line.verdict, kVerdictShare, colour, Align::right},
                       {line.so_far, kSoFarShare, colours().text, Align::right}});
        }
    }

    void score(Box area) {
        for (const ScoreLine& line : f_.score)
            row(area,
                {{line.name, 0.60F, colours().quiet}, {line.value, 0.40F, colours().text, Align::right}});
    }

    [[nodiscard]] float height() const { return kLines * line_; }
    [[nodiscard]] float gap() const { return 0.9F * canvas_.fonts().label->FontSize; }

  private:
    static constexpr float kKeyShare = 0.27F;
    static constexpr float kWhatShare = 0.36F;
    static constexpr float kNameShare = 0.26F;
    static constexpr float kTruthShare = 0.13F;
    static constexpr float kToldShare = 0.27F;
    static constexpr float kVerdictShare = 0.20F;
    static constexpr float kSoFarShare = 0.14F;

    [[nodiscard]] const Palette& colours() const { return canvas_.palette(); }

    // `columns`: of the lines about it, where it has fewer cells.
    void row(Box& area, std::initializer_list<Cell> cells, std::size_t columns = 0) {
        Box box = area.take_top(line_);
        const float between = 0.4F * canvas_.fonts().label->FontSize;
        const float width = box.w - between * static_cast<float>(std::max(columns, cells.size()) - 1);
        for (const Cell& cell : cells)
            canvas_.text(box.take_left(width * cell.share, between), canvas_.fonts().label, cell.colour,
                         cell.words, cell.align);
    }

    void head(Box& area, std::initializer_list<Cell> cells) {
        const float y = area.y + line_;
        canvas_.line({area.x, y}, {area.right(), y}, colours().rule, 1.0F);
        row(area, cells);
    }

    void fault(Box& column, const FaultLine& line) {
        Box box = column.take_top(line_);
        if (line.on) canvas_.fill(box, colours().warning, 4.0F);
        box.take_left(0.2F * line_);
        const Rgb key = line.on ? colours().on_mark : colours().rate;
        canvas_.text(box.take_left(0.9F * line_), canvas_.fonts().label, key, line.key);
        canvas_.text(box, canvas_.fonts().label, line.on ? colours().on_mark : colours().text, line.name);
    }

    Canvas& canvas_;
    const SimulatorFigures& f_;
    float line_;
};

void draw_notice(Canvas& canvas, Box area, const SimulatorFigures& f) {
    const Palette& palette = canvas.palette();
    if (f.refused) {
        const Box bar = area.take_left(6 * canvas.unit(), 8 * canvas.unit());
        canvas.fill(bar, palette.warning, 2.0F);
    }
    ImFont* larger = canvas.fonts().text;
    ImFont* font = Canvas::width_of(larger, f.notice) <= area.w ? larger : canvas.fonts().label;
    canvas.text(area, font, f.refused ? palette.warning : palette.text, f.notice);
}

// The mark, what comes next where that has no line of its own, and the pace.
void draw_mark_line(Canvas& canvas, Box line, const SimulatorFigures& f, Arrangement how) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float gap = 16 * canvas.unit();
    const std::string mark = f.say(Text::sim_mark);
    const Box plate = line.take_left(Canvas::width_of(fonts.strong, mark) + 2 * gap, gap);
    canvas.fill(plate, palette.quiet, 4.0F);
    canvas.text(plate, fonts.strong, palette.ground, mark, Align::centre);
    const auto right = [&](const std::string& words, Rgb colour) {
        const float width = Canvas::width_of(fonts.label, words);
        canvas.text(line.take_right(width, gap), fonts.label, colour, words, Align::right);
    };
    right(f.pace, palette.text);
    right(f.pause_key, palette.rate);
    if (how == Arrangement::two_pages) right(f.page_key, palette.rate);
    const std::string more = f.say(Text::sim_mark_more);
    const float width = Canvas::width_of(fonts.label, more);
    if (how == Arrangement::two_rows) {
        if (width <= line.w) canvas.text(line, fonts.label, palette.quiet, more);
        return;
    }
    const bool room = Canvas::width_of(fonts.text, f.notice) + width + 3 * gap <= line.w;
    if (room) canvas.text(line.take_right(width, gap), fonts.label, palette.quiet, more);
    draw_notice(canvas, line, f);
}

float strip_height(float unit, float line, bool two_rows) {
    const float once = (kMarkUnits + 2 * kEdgeUnits + kGapUnits) * unit + kLines * line;
    return two_rows ? once + 2 * kGapUnits * unit + (kLines + 1.0F) * line : once;
}

}  // namespace

float simulator_strip_height(const Canvas& canvas, float width_px) {
    const bool two = arrangement_of(canvas, width_px) == Arrangement::two_rows;
    return strip_height(canvas.unit(), Canvas::line_of(canvas.fonts().label), two);
}

void draw_simulator_strip(Canvas& canvas, Box area, const SimulatorFigures& f) {
    canvas.fill(area, canvas.palette().ground);
    canvas.line({area.x, area.y}, {area.right(), area.y}, canvas.palette().rule, 1.0F);
    const float below = kGapUnits * canvas.unit();
    const Arrangement how = arrangement_of(canvas, area.w);
    area = area.inset(kEdgeUnits * canvas.unit());
    draw_mark_line(canvas, area.take_top(kMarkUnits * canvas.unit(), below), f, how);
    if (how == Arrangement::two_rows)
        draw_notice(canvas, area.take_top(Canvas::line_of(canvas.fonts().label), below), f);
    StripSetter setter(canvas, f);
    const float gap = setter.gap();
    if (how == Arrangement::one_row) {
        setter.controls(area.take_left(area.w * 0.255F, gap));
        setter.faults(area.take_left(area.w * 0.34F, gap));
        setter.beside(area.take_left(area.w * 0.64F, gap));
        setter.score(area);
        return;
    }
    if (how == Arrangement::two_rows || !f.second_page) {
        Box upper = area.take_top(setter.height(), below);
        setter.controls(upper.take_left((upper.w - gap) * 0.48F, gap));
        setter.faults(upper);
    }
    if (how == Arrangement::two_pages && !f.second_page) return;
    setter.beside(area.take_left((area.w - gap) * 0.62F, gap));
    setter.score(area);
}

void draw_simulator_frame(Canvas& canvas, const Box& whole) {
    const float dash = std::round(24 * canvas.unit());
    const float thick = std::max(2.0F, std::round(4 * canvas.unit()));
    const Rgb colour = canvas.palette().quiet;
    for (float x = whole.x; x < whole.right(); x += 2 * dash) {
        const float wide = std::min(dash, whole.right() - x);
        canvas.fill({x, whole.y, wide, thick}, colour);
        canvas.fill({x, whole.bottom() - thick, wide, thick}, colour);
    }
    for (float y = whole.y; y < whole.bottom(); y += 2 * dash) {
        const float high = std::min(dash, whole.bottom() - y);
        canvas.fill({whole.x, y, thick, high}, colour);
        canvas.fill({whole.right() - thick, y, thick, high}, colour);
    }
}

float simulator_unit(float width_px, float height_px, float scale) {
    // The strip's height hangs on the unit and the unit on the room that it leaves: three rounds settle it.
    float unit = unit_for(width_px, height_px, scale);
    for (int round = 0; round < 3; ++round) {
        const float type = std::max(kLeastPx, kLabelPx * unit);
        const bool two = width_px / type < kTwoByTwoEms;
        unit = unit_for(width_px, height_px - strip_height(unit, 1.16F * type, two), scale);
    }
    return unit;
}

}  // namespace podrate::ui
