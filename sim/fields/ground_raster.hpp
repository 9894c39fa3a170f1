// Ground as small cells: covered once, however often it was driven over.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "geo/place.hpp"

namespace podrate::sim {

// Rings on a plane, outer ones and holes alike: even-odd.
using PlaneRings = std::vector<std::vector<EastNorth>>;

// A bit for each cell of 12.5 cm, whose middle tells for the whole of it; tiles of 8 m are made where ground
// is covered: 80 KB a hectare. An edge that crosses the cells is right to a few mm in the mean; one along
// them to half a cell.
class GroundRaster {
  public:
    static constexpr double kCellM = 0.125;
    static constexpr double kTileM = 8.0;

    GroundRaster() = default;
    GroundRaster(const GroundRaster& other) : tiles_(other.tiles_) {}
    GroundRaster& operator=(const GroundRaster&) = delete;

    void cover_triangle(EastNorth a, EastNorth b, EastNorth c);
    void cover(const PlaneRings& rings);
    void cover(const GroundRaster& other);  // on the same plane

    // Covers slits and nicks of no more than 1 m (1.4 m where they run askew) between covered ground; an
    // outer edge stays where it is.
    void close_slits();

    // Leaves what is inside those rings, or what is outside them.
    void keep_inside(const PlaneRings& rings) { keep(rings, 0); }
    void keep_outside(const PlaneRings& rings) { keep(rings, ~std::uint64_t{0}); }

    [[nodiscard]] double area_m2() const;
    // take(row, column, covered m2) of each tile: squares of kTileM, numbered from the plane's origin.
    template <class Take>
    void for_each_tile(const Take& take) const {
        for (const auto& [key, tile] : tiles_) take(key.first, key.second, area_m2(tile));
    }
    [[nodiscard]] std::size_t bytes() const;

  private:
    static constexpr int kSide = 64;
    using Tile = std::array<std::uint64_t, kSide>;  // a word is a row, its lowest bit the western cell
    static double area_m2(const Tile& tile);
    void cover_span(std::int64_t row, double west_m, double east_m);
    void keep(const PlaneRings& rings, std::uint64_t flipped);
    using Tiles = std::map<std::pair<std::int32_t, std::int32_t>, Tile>;  // by row, then column
    static Tiles spread(const Tiles& from);
    static Tiles shrunk(const Tiles& from);
    Tile& tile(std::int32_t row, std::int32_t column);

    Tiles tiles_;
    std::pair<std::int32_t, std::int32_t> newest_key_{};
    Tile* newest_ = nullptr;  // in tiles_
};

}  // namespace podrate::sim
