#include "maps/cell_figure.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

// 1, 2 or 5 times a power of ten, not below `least`.
double round_up(double least) {
    const double ten = std::pow(10.0, std::floor(std::log10(least)));
    for (const double times : {1.0, 2.0, 5.0}) {
        if (times * ten >= least * (1.0 - 1e-9)) return times * ten;
    }
    return 10.0 * ten;
}

}  // namespace

constinit const CellFigure kYieldOfCell = {
    [](const MapCell& c, double cell_m) {
        return c.told(cell_m) ? std::optional(c.yield_tpha()) : std::nullopt;
    },
    [](const MapCell& c) { return c.harvested_kg > 0.0 ? c.harvested_sd_kg / c.harvested_kg : 1.0; }, 0.08,
    0.2};

constinit const CellFigure kLossOfCell = {
    [](const MapCell& c, double cell_m) {
        return c.told(cell_m) ? std::optional(c.lost_kg_per_ha()) : std::nullopt;
    },
    [](const MapCell& c) { return c.lost_kg > 0.0 ? c.lost_sd_kg / c.lost_kg : 1.0; }, 0.25, 0.5};

MapScale map_scale(std::vector<double> values, int decimals) {
    if (values.empty()) return {};
    std::sort(values.begin(), values.end());
    const std::size_t out = values.size() / 20;
    const double low = values[out];
    const double high = values[values.size() - 1 - out];
    MapScale scale;
    scale.step = round_up(std::max((high - low) / 4.0, std::pow(10.0, -decimals)));
    scale.low = std::floor(low / scale.step) * scale.step;
    scale.high = std::max(std::ceil(high / scale.step), scale.low / scale.step + 1.0) * scale.step;
    return scale;
}

}  // namespace podrate::sim
