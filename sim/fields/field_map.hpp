// Which field a place belongs to.
#pragma once

#include <vector>

#include "day/field.hpp"
#include "fields/ground_raster.hpp"
#include "geo/local_frame.hpp"

namespace podrate::sim {

// So far outside a boundary a place still belongs to that field: half a swath, and what a receiver and a
// boundary drawn by hand are off.
inline constexpr double kFieldMarginM = 10.0;

class FieldMap {
  public:
    explicit FieldMap(const std::vector<Field>& fields);

    // Index of the field, or -1. Of nested fields the innermost, of others that overlap the one in which the
    // place lies deeper; outside all, the nearest within kFieldMarginM.
    [[nodiscard]] int at(LatLon place) const;

    // Whether a place may lie within `by_m` of the field: by its box.
    [[nodiscard]] bool near(std::size_t field, LatLon place, double by_m) const;

    [[nodiscard]] std::size_t size() const { return bounds_.size(); }
    // Of one field: its plane, and its boundary on it.
    [[nodiscard]] const LocalFrame& frame(std::size_t field) const { return bounds_[field].frame; }
    [[nodiscard]] const PlaneRings& rings(std::size_t field) const { return bounds_[field].rings; }

    // Other boundaries that come near, on that field's plane. `whose_ground`: only of fields whose ground is
    // not this one's although its boundary may hold it, those nested in it, and those that merely overlap it
    // and stand before it in the file.
    [[nodiscard]] std::vector<PlaneRings> others(std::size_t field, bool whose_ground) const;

  private:
    struct Bounds {
        LocalFrame frame;
        PlaneRings rings;
        EastNorth low;
        EastNorth high;
        double area_ha;
    };
    // Depth below the boundary, m; negative outside.
    [[nodiscard]] static double depth_m(const Bounds& of, EastNorth place);
    [[nodiscard]] bool nested(std::size_t inner, std::size_t outer) const;
    [[nodiscard]] PlaneRings rings_on(std::size_t field, const LocalFrame& frame) const;

    const std::vector<Field>& fields_;
    std::vector<Bounds> bounds_;
    std::vector<std::vector<bool>> nested_;  // [inner][outer]
};

}  // namespace podrate::sim
