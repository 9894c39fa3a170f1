// A field's boundary as polygons.
#pragma once

#include <vector>

#include "geo/place.hpp"

namespace podrate::sim {

struct BoundaryPolygon {
    Ring outer;
    std::vector<Ring> holes;
};

// Sorts rings, outer ones and holes alike, by how many others they lie in: an island in a hole is a polygon
// of its own. Rings do not cross.
std::vector<BoundaryPolygon> boundary_polygons(const std::vector<Ring>& rings);

}  // namespace podrate::sim
