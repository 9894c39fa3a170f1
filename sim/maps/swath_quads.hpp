// A machine's swath in short pieces, each with the map cells that it lies in.
#pragma once

#include <cstdint>
#include <vector>

#include "fields/work_track.hpp"
#include "maps/cell_grid.hpp"

namespace podrate::sim {

// A share of a piece that lies in one cell; a piece's shares add up to 1.
struct CellShare {
    std::size_t cell = 0;  // number in the grid
    double share = 0.0;
};

// From one crossbar to the next.
struct SwathQuad {
    TimeUs start_us = 0;
    TimeUs end_us = 0;
    double from_m2 = 0.0;  // of the area that the machine has cut so far, at its start and its end
    double to_m2 = 0.0;
    std::size_t first_share = 0;  // in SwathQuads::shares
    std::size_t shares = 0;
};

struct SwathQuads {
    std::vector<SwathQuad> quads;  // in order of time
    std::vector<CellShare> shares;
};

// The area cut so far at a time, by the machine's points; between them it grows evenly. The points must
// outlive it.
class AreaByTime {
  public:
    explicit AreaByTime(const std::vector<WorkPoint>& points);
    // Quick for times that are asked for in order, forth or back.
    [[nodiscard]] double at(TimeUs time_us);

  private:
    const std::vector<WorkPoint>& points_;
    std::vector<double> area_m2_;  // at each point
    std::size_t near_ = 0;
};

// Each piece's ground is laid on the grid, too.
SwathQuads swath_quads(const std::vector<WorkPoint>& points, double width_m, CellGrid& grid);

}  // namespace podrate::sim
