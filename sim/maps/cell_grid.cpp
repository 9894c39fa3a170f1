#include "maps/cell_grid.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

std::uint64_t key_of(std::int32_t column, std::int32_t row) {
    return static_cast<std::uint64_t>(static_cast<std::uint32_t>(column)) << 32 |
           static_cast<std::uint32_t>(row);
}

std::int32_t floor_over(std::int32_t a, std::int32_t b) {
    return a >= 0 ? a / b : -((b - 1 - a) / b);
}

}  // namespace

CellGrid::CellGrid(LatLon near, double cell_m)
    : plane_(near),
      cell_m_(cell_m),
      tiles_(std::max(1, static_cast<int>(std::lround(cell_m / GroundRaster::kTileM)))),
      to_raster_(GroundRaster::kTileM * tiles_ / cell_m) {
    base_ = place_of(plane_.to_plane(near));
}

std::size_t CellGrid::number_of(CellPlace place) {
    const std::uint64_t key = key_of(place.column, place.row);
    if (!cells_.empty() && key == newest_key_) return newest_;
    const auto [at, fresh] = numbers_.try_emplace(key, cells_.size());
    if (fresh) cells_.push_back(place);
    newest_key_ = key;
    newest_ = at->second;
    return newest_;
}

CellPlace CellGrid::place_of(EastNorth place) const {
    return {static_cast<std::int32_t>(std::floor(place.east_m / cell_m_)),
            static_cast<std::int32_t>(std::floor(place.north_m / cell_m_))};
}

std::size_t CellGrid::cell_at(EastNorth place) {
    return number_of(place_of(place));
}

void CellGrid::lay(EastNorth a, EastNorth b, EastNorth c, EastNorth d) {
    const auto there = [this](EastNorth at) {
        return EastNorth{(at.east_m - base_.column * cell_m_) * to_raster_,
                         (at.north_m - base_.row * cell_m_) * to_raster_};
    };
    ground_.cover_triangle(there(a), there(b), there(c));
    ground_.cover_triangle(there(a), there(c), there(d));
}

std::vector<double> CellGrid::covered_m2() {
    ground_.close_slits();
    const double factor = 1.0 / (to_raster_ * to_raster_ * plane_.area_factor());
    std::vector<double> areas(cells_.size(), 0.0);
    ground_.for_each_tile([&](std::int32_t row, std::int32_t column, double area_m2) {
        // A cell that only an edge of ground touches has no peas of its own.
        const auto at = numbers_.find(
            key_of(base_.column + floor_over(column, tiles_), base_.row + floor_over(row, tiles_)));
        if (at != numbers_.end()) areas[at->second] += factor * area_m2;
    });
    return areas;
}

}  // namespace podrate::sim
