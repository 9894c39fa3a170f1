#include "report/taskdata/boundary.hpp"

#include <algorithm>

namespace podrate::sim {
namespace {

bool corner_inside(LatLon corner, const Ring& ring) {
    bool inside = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const LatLon& a = ring[i];
        const LatLon& b = ring[j];
        if ((a.lat_deg > corner.lat_deg) == (b.lat_deg > corner.lat_deg)) continue;
        const double along = (corner.lat_deg - a.lat_deg) / (b.lat_deg - a.lat_deg);
        if (corner.lon_deg < a.lon_deg + along * (b.lon_deg - a.lon_deg)) inside = !inside;
    }
    return inside;
}

// By most of its corners: some may lie on the other's edge.
bool lies_in(const Ring& ring, const Ring& other) {
    const auto inside =
        std::count_if(ring.begin(), ring.end(), [&](LatLon corner) { return corner_inside(corner, other); });
    return 2 * static_cast<std::size_t>(inside) > ring.size();
}

}  // namespace

std::vector<BoundaryPolygon> boundary_polygons(const std::vector<Ring>& rings) {
    std::vector<std::vector<std::size_t>> around(rings.size());
    for (std::size_t i = 0; i < rings.size(); ++i) {
        for (std::size_t j = 0; j < rings.size(); ++j) {
            if (i != j && lies_in(rings[i], rings[j])) around[i].push_back(j);
        }
    }
    std::vector<BoundaryPolygon> polygons;
    std::vector<std::size_t> polygon_of(rings.size(), 0);
    for (std::size_t i = 0; i < rings.size(); ++i) {
        if (around[i].size() % 2 == 1) continue;
        polygon_of[i] = polygons.size();
        polygons.push_back({rings[i], {}});
    }
    for (std::size_t i = 0; i < rings.size(); ++i) {
        if (around[i].size() % 2 == 0) continue;
        // Its own is the one that lies deepest of those about it.
        const std::size_t owner = *std::max_element(
            around[i].begin(), around[i].end(),
            [&](std::size_t a, std::size_t b) { return around[a].size() < around[b].size(); });
        polygons[polygon_of[owner]].holes.push_back(rings[i]);
    }
    return polygons;
}

}  // namespace podrate::sim
