#include "fields/field_map.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace podrate::sim {
namespace {

constexpr double kTouchM = 1.0;  // corners of a nested field may lie so far outside

double distance_to_edge_m(EastNorth place, EastNorth a, EastNorth b) {
    const double east = b.east_m - a.east_m;
    const double north = b.north_m - a.north_m;
    const double length2 = east * east + north * north;
    const double along =
        length2 > 0.0
            ? std::clamp(((place.east_m - a.east_m) * east + (place.north_m - a.north_m) * north) / length2,
                         0.0, 1.0)
            : 0.0;
    return length_of_m(place.east_m - a.east_m - along * east, place.north_m - a.north_m - along * north);
}

}  // namespace

FieldMap::FieldMap(const std::vector<Field>& fields) : fields_(fields) {
    for (std::size_t i = 0; i < fields.size(); ++i) {
        double lat_sum = 0.0;
        double lon_sum = 0.0;
        const Ring& outer = fields[i].rings.front();
        for (const LatLon& corner : outer) {
            lat_sum += corner.lat_deg;
            lon_sum += corner.lon_deg;
        }
        const auto corners = static_cast<double>(outer.size());
        Bounds bounds{LocalFrame({lat_sum / corners, lon_sum / corners}), {}, {}, {}, fields[i].area_ha};
        bounds.rings = rings_on(i, bounds.frame);
        bounds.low = bounds.high = bounds.rings.front().front();
        for (const auto& ring : bounds.rings) {
            for (const EastNorth& corner : ring) {
                bounds.low.east_m = std::min(bounds.low.east_m, corner.east_m);
                bounds.low.north_m = std::min(bounds.low.north_m, corner.north_m);
                bounds.high.east_m = std::max(bounds.high.east_m, corner.east_m);
                bounds.high.north_m = std::max(bounds.high.north_m, corner.north_m);
            }
        }
        bounds_.push_back(std::move(bounds));
    }
    nested_.assign(size(), std::vector<bool>(size(), false));
    for (std::size_t inner = 0; inner < size(); ++inner) {
        for (std::size_t outer = 0; outer < size(); ++outer) nested_[inner][outer] = nested(inner, outer);
    }
}

PlaneRings FieldMap::rings_on(std::size_t field, const LocalFrame& frame) const {
    PlaneRings rings;
    for (const Ring& ring : fields_[field].rings) {
        auto& plane = rings.emplace_back();
        for (const LatLon& corner : ring) plane.push_back(frame.to_east_north(corner));
    }
    return rings;
}

double FieldMap::depth_m(const Bounds& of, EastNorth place) {
    double nearest_m = std::numeric_limits<double>::max();
    bool in = false;
    for (const auto& ring : of.rings) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            const EastNorth& a = ring[i];
            const EastNorth& b = ring[j];
            nearest_m = std::min(nearest_m, distance_to_edge_m(place, a, b));
            if ((a.north_m > place.north_m) == (b.north_m > place.north_m)) continue;
            const double along = (place.north_m - a.north_m) / (b.north_m - a.north_m);
            if (place.east_m < a.east_m + along * (b.east_m - a.east_m)) in = !in;
        }
    }
    return in ? nearest_m : -nearest_m;
}

bool FieldMap::nested(std::size_t inner, std::size_t outer) const {
    if (inner == outer || bounds_[inner].area_ha > bounds_[outer].area_ha) return false;
    // Of two alike the first in the file is taken for the inner one.
    if (bounds_[inner].area_ha == bounds_[outer].area_ha && inner > outer) return false;
    for (const Ring& ring : fields_[inner].rings) {
        for (const LatLon& corner : ring) {
            if (depth_m(bounds_[outer], bounds_[outer].frame.to_east_north(corner)) < -kTouchM) return false;
        }
    }
    return true;
}

bool FieldMap::near(std::size_t field, LatLon place, double by_m) const {
    const Bounds& of = bounds_[field];
    const EastNorth at = of.frame.to_east_north(place);
    return at.east_m >= of.low.east_m - by_m && at.east_m <= of.high.east_m + by_m &&
           at.north_m >= of.low.north_m - by_m && at.north_m <= of.high.north_m + by_m;
}

int FieldMap::at(LatLon place) const {
    int best = -1;
    double best_m = -kFieldMarginM;
    for (std::size_t i = 0; i < size(); ++i) {
        if (!near(i, place, kFieldMarginM)) continue;
        const double here_m = depth_m(bounds_[i], bounds_[i].frame.to_east_north(place));
        if (here_m < -kFieldMarginM) continue;
        bool better = best < 0 || here_m > best_m;
        if (best >= 0 && here_m >= 0.0 && best_m >= 0.0) {
            const auto other = static_cast<std::size_t>(best);
            if (nested_[i][other]) better = true;
            if (nested_[other][i]) better = false;
        }
        if (!better) continue;
        best = static_cast<int>(i);
        best_m = here_m;
    }
    return best;
}

std::vector<PlaneRings> FieldMap::others(std::size_t field, bool whose_ground) const {
    std::vector<PlaneRings> others;
    for (std::size_t i = 0; i < size(); ++i) {
        if (i == field) continue;
        if (whose_ground && (nested_[field][i] || (i > field && !nested_[i][field]))) continue;
        PlaneRings rings = rings_on(i, bounds_[field].frame);
        const bool apart = std::all_of(rings.begin(), rings.end(), [&](const std::vector<EastNorth>& ring) {
            const Bounds& b = bounds_[field];
            const auto all = [&ring](auto beyond) { return std::all_of(ring.begin(), ring.end(), beyond); };
            constexpr double kBy = 2.0 * kFieldMarginM;
            return all([&b](EastNorth c) { return c.east_m > b.high.east_m + kBy; }) ||
                   all([&b](EastNorth c) { return c.east_m < b.low.east_m - kBy; }) ||
                   all([&b](EastNorth c) { return c.north_m > b.high.north_m + kBy; }) ||
                   all([&b](EastNorth c) { return c.north_m < b.low.north_m - kBy; });
        });
        if (!apart) others.push_back(std::move(rings));
    }
    return others;
}

}  // namespace podrate::sim
