#include "maps/swath_quads.hpp"

#include <algorithm>
#include <cmath>

#include "fields/cut_strips.hpp"

namespace podrate::sim {
namespace {

constexpr int kAcross = 16;
constexpr double kAlongM = 2.0;  // ... and one for each so much along the way

EastNorth between(EastNorth a, EastNorth b, double along) {
    return {a.east_m + along * (b.east_m - a.east_m), a.north_m + along * (b.north_m - a.north_m)};
}

struct Bar {
    EastNorth left;
    EastNorth right;
};

// On the plane a length is a part in a thousand off at most: nothing over half a reel.
Bar bar_of(const Crossbar& crossbar, double width_m, UtmPlane& plane) {
    return {plane.to_plane(beside(crossbar, 0.5 * width_m)),
            plane.to_plane(beside(crossbar, -0.5 * width_m))};
}

void add_shares(const Bar& from, const Bar& to, CellGrid& grid, std::vector<CellShare>& shares) {
    const std::size_t first = shares.size();
    const EastNorth back = between(from.left, from.right, 0.5);
    const EastNorth ahead = between(to.left, to.right, 0.5);
    const double far_m = std::hypot(ahead.east_m - back.east_m, ahead.north_m - back.north_m);
    const int along = std::max(1, static_cast<int>(std::ceil(far_m / kAlongM)));
    const double each = 1.0 / (along * kAcross);
    for (int i = 0; i < along; ++i) {
        const double gone = (i + 0.5) / along;
        const EastNorth left = between(from.left, to.left, gone);
        const EastNorth right = between(from.right, to.right, gone);
        for (int j = 0; j < kAcross; ++j) {
            const std::size_t cell = grid.cell_at(between(left, right, (j + 0.5) / kAcross));
            const auto same = std::find_if(shares.begin() + static_cast<std::ptrdiff_t>(first), shares.end(),
                                           [cell](const CellShare& share) { return share.cell == cell; });
            if (same == shares.end()) {
                shares.push_back({cell, each});
            } else {
                same->share += each;
            }
        }
    }
}

}  // namespace

AreaByTime::AreaByTime(const std::vector<WorkPoint>& points) : points_(points) {
    double sum_m2 = 0.0;
    for (const WorkPoint& point : points) area_m2_.push_back(sum_m2 += static_cast<double>(point.area_m2));
}

double AreaByTime::at(TimeUs time_us) {
    if (points_.empty() || time_us < points_.front().time_us) return 0.0;
    while (near_ > 0 && points_[near_].time_us > time_us) --near_;
    while (near_ + 1 < points_.size() && points_[near_ + 1].time_us <= time_us) ++near_;
    if (near_ + 1 == points_.size()) return area_m2_.back();
    const double along = static_cast<double>(time_us - points_[near_].time_us) /
                         static_cast<double>(points_[near_ + 1].time_us - points_[near_].time_us);
    return area_m2_[near_] + along * (area_m2_[near_ + 1] - area_m2_[near_]);
}

SwathQuads swath_quads(const std::vector<WorkPoint>& points, double width_m, CellGrid& grid) {
    SwathQuads swath;
    AreaByTime area(points);
    for (const CutStrip& strip : cut_strips(points, width_m)) {
        Bar back = bar_of(strip.crossbars.front(), width_m, grid.plane());
        for (std::size_t i = 1; i < strip.crossbars.size(); ++i) {
            const Bar ahead = bar_of(strip.crossbars[i], width_m, grid.plane());
            SwathQuad quad;
            quad.start_us = strip.crossbars[i - 1].time_us;
            quad.end_us = strip.crossbars[i].time_us;
            quad.from_m2 = area.at(quad.start_us);
            quad.to_m2 = area.at(quad.end_us);
            quad.first_share = swath.shares.size();
            add_shares(back, ahead, grid, swath.shares);
            quad.shares = swath.shares.size() - quad.first_share;
            grid.lay(back.left, back.right, ahead.right, ahead.left);
            swath.quads.push_back(quad);
            back = ahead;
        }
    }
    return swath;
}

}  // namespace podrate::sim
