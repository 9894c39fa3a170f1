#include "report/html/map_picture.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "log/number.hpp"
#include "report/html/cividis.hpp"
#include "report/html/inline_png.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

constexpr double kPictureWidth = 500.0;
constexpr double kMargin = 12.0;
constexpr double kFoot = 44.0;          // for the scale bar
constexpr double kHighest = 460.0;      // of the cells
constexpr double kMarksBesideM = 40.0;  // outside the cells a mark is still shown

struct Window {
    std::int32_t west = std::numeric_limits<std::int32_t>::max();  // columns and rows of cells
    std::int32_t east = std::numeric_limits<std::int32_t>::min();
    std::int32_t south = std::numeric_limits<std::int32_t>::max();
    std::int32_t north = std::numeric_limits<std::int32_t>::min();
    double cell = 0.0;  // in the drawing
    double left = kMargin;

    [[nodiscard]] int columns() const { return east - west + 1; }
    [[nodiscard]] int rows() const { return north - south + 1; }
    [[nodiscard]] double x(double east_cells) const { return left + (east_cells - west) * cell; }
    [[nodiscard]] double y(double north_cells) const { return kMargin + (north + 1 - north_cells) * cell; }
    [[nodiscard]] double foot() const { return kMargin + rows() * cell; }
};

Window window_of(const DayMap& map, int field, const MapFigure& figure) {
    Window window;
    for (const MapCell& c : map.cells) {
        if (c.field != field || !figure.value(c, map.cell_m)) continue;
        window.west = std::min(window.west, c.place.column);
        window.east = std::max(window.east, c.place.column);
        window.south = std::min(window.south, c.place.row);
        window.north = std::max(window.north, c.place.row);
    }
    if (window.west > window.east) return window;
    const double room = kPictureWidth - 2.0 * kMargin;
    window.cell = std::min({room / window.columns(), kHighest / window.rows(), 24.0});
    window.left = 0.5 * (kPictureWidth - window.cell * window.columns());
    return window;
}

std::string cells_svg(const DayMap& map, int field, const MapFigure& figure, const MapScale& scale,
                      const Window& window) {
    std::vector<std::uint8_t> rgba(
        std::size_t(4) * static_cast<std::size_t>(window.columns() * window.rows()), 0);
    std::string unsure;
    std::string very_unsure;
    for (const MapCell& c : map.cells) {
        const std::optional<double> value = c.field == field ? figure.value(c, map.cell_m) : std::nullopt;
        if (!value) continue;
        const Rgb colour = cividis((*value - scale.low) / (scale.high - scale.low));
        const int down = window.north - c.place.row;
        std::uint8_t* pixel = &rgba[std::size_t(4) * static_cast<std::size_t>(down * window.columns() +
                                                                              c.place.column - window.west)];
        std::copy(colour.begin(), colour.end(), pixel);
        pixel[3] = 255;
        const double sd_share = figure.sd_share(c);
        if (sd_share <= figure.unsure_share) continue;
        std::string& path = sd_share > figure.very_unsure_share ? very_unsure : unsure;
        const std::string side = fixed(window.cell, 1);
        path += "M" + fixed(window.x(c.place.column), 1) + "," + fixed(window.y(c.place.row + 1), 1) + "h" +
                side + "v" + side + "h-" + side + "z";
    }
    std::string svg = "<image class=\"cells\" x=\"" + fixed(window.left, 1) + "\" y=\"" + fixed(kMargin, 1) +
                      "\" width=\"" + fixed(window.cell * window.columns(), 1) + "\" height=\"" +
                      fixed(window.cell * window.rows(), 1) + "\" preserveAspectRatio=\"none\" href=\"" +
                      inline_png(rgba, window.columns(), window.rows()) + "\"/>\n";
    if (!unsure.empty()) svg += "<path fill=\"url(#unsure)\" d=\"" + unsure + "\"/>\n";
    if (!very_unsure.empty()) svg += "<path fill=\"url(#very-unsure)\" d=\"" + very_unsure + "\"/>\n";
    return svg;
}

std::string scale_bar_svg(const Window& window, double cell_m) {
    const double third_m = window.columns() * cell_m / 2.5;
    double length_m = 10.0;
    for (const double candidate : {20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0}) {
        if (candidate <= third_m) length_m = candidate;
    }
    const double long_px = length_m / cell_m * window.cell;
    const double y = window.foot() + 22.0;
    const std::string from = fixed(kMargin, 1);
    const std::string to = fixed(kMargin + long_px, 1);
    const std::string top = fixed(y - 5.0, 1);
    const std::string bottom = fixed(y, 1);
    return "<path class=\"map-line\" d=\"M" + from + "," + top + "V" + bottom + "H" + to + "V" + top +
           "\"/><text x=\"" + fixed(kMargin + long_px + 8.0, 1) + "\" y=\"" + bottom + "\">" +
           fixed(length_m, 0) + " m</text>\n";
}

// True north: the plane's own leans away from it by the convergence.
std::string north_svg(const Window& window, double convergence_deg) {
    const double x = kPictureWidth - kMargin - 12.0;
    const double y = window.foot() + 20.0;
    return "<g transform=\"translate(" + fixed(x, 1) + "," + fixed(y, 1) + ") rotate(" +
           fixed(-convergence_deg, 2) +
           ")\"><path class=\"map-arrow\" d=\"M0,-14L6,10L0,5L-6,10Z\"/></g><text x=\"" + fixed(x - 24.0, 1) +
           "\" y=\"" + fixed(y + 5.0, 1) + "\">N</text>\n";
}

std::string marks_svg(DayMap& map, const MapFigure& figure, const Window& window) {
    std::string svg;
    const double beside = kMarksBesideM / map.cell_m;
    for (const MapMark& mark : map.marks) {
        if (std::find(figure.marks.begin(), figure.marks.end(), mark.kind) == figure.marks.end()) continue;
        const EastNorth at = map.plane.to_plane(mark.place);
        const double column = at.east_m / map.cell_m;
        const double row = at.north_m / map.cell_m;
        if (column < window.west - beside || column > window.east + 1 + beside ||
            row < window.south - beside || row > window.north + 1 + beside)
            continue;
        svg += mark_shape(mark.kind, std::clamp(window.x(column), 7.0, kPictureWidth - 7.0),
                          std::clamp(window.y(row), 7.0, window.foot() + 5.0));
    }
    return svg;
}

}  // namespace

std::string mark_shape(MarkKind kind, double x, double y) {
    const std::string at =
        "<g transform=\"translate(" + fixed(x, 1) + "," + fixed(y, 1) + ")\" class=\"map-mark\">";
    switch (kind) {
        case MarkKind::tip: return at + "<path d=\"M0,6L-6,-5H6Z\"/></g>";
        case MarkKind::stop: return at + "<path d=\"M-4.5,-4.5H4.5V4.5H-4.5Z\"/></g>";
        case MarkKind::heap: return at + "<circle r=\"5\"/></g>";
        case MarkKind::tray_check: return at + "<path d=\"M-2,-6H2V-2H6V2H2V6H-2V2H-6V-2H-2Z\"/></g>";
    }
    return {};
}

MapScale map_scale(const DayMap& map, const MapFigure& figure) {
    std::vector<double> values;
    for (const MapCell& cell : map.cells) {
        if (const auto value = figure.value(cell, map.cell_m)) values.push_back(*value);
    }
    return map_scale(std::move(values), figure.decimals);
}

std::string map_picture_svg(DayMap& map, int field, const MapFigure& figure, const MapScale& scale) {
    const Window window = window_of(map, field, figure);
    if (window.cell <= 0.0) return {};
    const std::string name =
        field < 0 ? std::string("in no field") : map.fields[static_cast<std::size_t>(field)];
    std::string svg = "<svg viewBox=\"0 0 " + fixed(kPictureWidth, 0) + " " +
                      fixed(window.foot() + kFoot, 0) + "\" role=\"img\"><title>" +
                      escaped(name + ": " + figure.title + ", " + figure.unit) + "</title>\n";
    svg += cells_svg(map, field, figure, scale, window);
    svg += marks_svg(map, figure, window);
    svg += scale_bar_svg(window, map.cell_m) + north_svg(window, map.plane.convergence_deg());
    return svg + "</svg>\n";
}

}  // namespace podrate::sim
