#include "fields/field_ground.hpp"

#include <algorithm>
#include <future>

namespace podrate::sim {
namespace {

struct Quad {
    LatLon left;
    LatLon right;
    LatLon left_ahead;
    LatLon right_ahead;
    LatLon middle;
};

void cover_quad(const Quad& quad, const LocalFrame& frame, GroundRaster& ground) {
    const EastNorth left = frame.to_east_north(quad.left);
    const EastNorth right_ahead = frame.to_east_north(quad.right_ahead);
    ground.cover_triangle(left, frame.to_east_north(quad.right), right_ahead);
    ground.cover_triangle(left, right_ahead, frame.to_east_north(quad.left_ahead));
}

template <class Take>
void for_each_quad(const CutStrip& strip, const Take& take) {
    const double half_m = 0.5 * strip.width_m;
    for (std::size_t i = 1; i < strip.crossbars.size(); ++i) {
        const Crossbar& back = strip.crossbars[i - 1];
        const Crossbar& ahead = strip.crossbars[i];
        take(Quad{beside(back, half_m),
                  beside(back, -half_m),
                  beside(ahead, half_m),
                  beside(ahead, -half_m),
                  {0.5 * (back.middle.lat_deg + ahead.middle.lat_deg),
                   0.5 * (back.middle.lon_deg + ahead.middle.lon_deg)}});
    }
}

// The area within the boundary that is the field's own: geodesic, less the share that is another's.
double own_area_m2(const Field& field, const PlaneRings& rings, const std::vector<PlaneRings>& others) {
    const double whole_m2 = field.area_ha * 1e4;
    if (others.empty()) return whole_m2;
    GroundRaster ground;
    ground.cover(rings);
    const double cells_m2 = ground.area_m2();
    for (const PlaneRings& other : others) ground.keep_outside(other);
    return cells_m2 > 0.0 ? whole_m2 * ground.area_m2() / cells_m2 : 0.0;
}

// Field `f` from the cells that were cut in it, and those cut in its neighbours that reach over; it uses up
// `own`.
FieldGround ground_of(const std::vector<Field>& fields, const FieldFinder& finder, std::size_t f,
                      GroundRaster& own, const GroundRaster* of_neighbours) {
    FieldGround ground;
    if (of_neighbours == nullptr) {
        own.close_slits();
        ground.covered_m2 = own.area_m2();
        return ground;
    }
    const PlaneRings& rings = finder.map().rings(f);
    const std::vector<PlaneRings> others = finder.map().others(f, true);
    ground.own_m2 = own_area_m2(fields[f], rings, others);
    GroundRaster covered = own;
    covered.cover(*of_neighbours);
    covered.close_slits();
    covered.keep_inside(rings);
    for (const PlaneRings& other : others) covered.keep_outside(other);
    ground.covered_m2 = std::min(covered.area_m2(), ground.own_m2);
    own.close_slits();
    own.keep_outside(rings);
    for (const PlaneRings& other : finder.map().others(f, false)) own.keep_outside(other);
    ground.beyond_m2 = own.area_m2();
    return ground;
}

}  // namespace

std::vector<FieldGround> field_ground(const std::vector<Field>& fields, const FieldFinder& finder,
                                      const std::vector<CutStrip>& strips) {
    std::vector<GroundRaster> own(finder.count());
    std::vector<GroundRaster> of_neighbours(fields.size());  // that reaches over
    for (const CutStrip& strip : strips) {
        for_each_quad(strip, [&](const Quad& quad) {
            const int at = finder.at(quad.middle);
            if (at >= 0)
                cover_quad(quad, finder.frame(static_cast<std::size_t>(at)),
                           own[static_cast<std::size_t>(at)]);
            for (std::size_t f = 0; f < fields.size(); ++f) {
                if (static_cast<int>(f) == at || !finder.map().near(f, quad.middle, strip.width_m)) continue;
                cover_quad(quad, finder.frame(f), of_neighbours[f]);
            }
        });
    }
    std::vector<FieldGround> grounds(finder.count());
    // One field's cells are no other's, so they are counted side by side.
    std::vector<std::future<FieldGround>> counts;
    for (std::size_t f = 0; f < finder.count(); ++f) {
        counts.push_back(std::async(std::launch::async, [&, f] {
            const GroundRaster* neighbours = finder.bounded(f) ? &of_neighbours[f] : nullptr;
            return ground_of(fields, finder, f, own[f], neighbours);
        }));
    }
    for (std::size_t f = 0; f < finder.count(); ++f) grounds[f] = counts[f].get();
    return grounds;
}

}  // namespace podrate::sim
