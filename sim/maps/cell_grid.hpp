// The grid of a day's maps: square cells on a UTM plane, their lines at whole multiples of the cell's side.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "fields/ground_raster.hpp"
#include "geo/utm_plane.hpp"

namespace podrate::sim {

struct CellPlace {
    std::int32_t column = 0;  // east of its west edge: column x cell_m
    std::int32_t row = 0;     // north of its south edge: row x cell_m
    bool operator==(const CellPlace&) const = default;
};

class CellGrid {
  public:
    CellGrid(LatLon near, double cell_m);

    [[nodiscard]] CellPlace place_of(EastNorth place) const;
    // Number of the cell at that place of the plane, made where it is new.
    std::size_t cell_at(EastNorth place);
    // Ground that was cut, corners in order around.
    void lay(EastNorth a, EastNorth b, EastNorth c, EastNorth d);
    // Of each cell, m2 on the ellipsoid, counted once; slits of about a metre are taken for cut.
    [[nodiscard]] std::vector<double> covered_m2();

    [[nodiscard]] const std::vector<CellPlace>& cells() const { return cells_; }
    [[nodiscard]] double cell_m() const { return cell_m_; }
    [[nodiscard]] UtmPlane& plane() { return plane_; }

  private:
    std::size_t number_of(CellPlace place);
    UtmPlane plane_;
    double cell_m_;
    int tiles_;         // of the raster along a cell's side
    double to_raster_;  // metres there for one on the plane
    CellPlace base_;    // where the raster has its origin
    GroundRaster ground_;
    std::vector<CellPlace> cells_;
    std::unordered_map<std::uint64_t, std::size_t> numbers_;
    std::uint64_t newest_key_ = 0;
    std::size_t newest_ = 0;
};

}  // namespace podrate::sim
