#include "maps/swath_quads.hpp"

#include <algorithm>
#include <cmath>

#include "fields/cut_strips.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

constexpr int kAcross = 16;  // looks across the reel's width: 20 cm each

constexpr double kAlongM = 2.0;  // ... and one for each so much along the way

EastNorth between(EastNorth a, EastNorth b, double along) {
    return {a.east_m + along * (b.east_m - a.east_m), a.north_m + along * (b.north_m - a.north_m)};
}

struct Bar {
    EastNorth left;
    EastNorth right;
};

// A crossbar's ends on the plane. What the plane stretches is nothing over half a reel, and how it is turned
// changes by a few mm there over 10 km.
class BarMaker {
  public:
    BarMaker(double width_m, UtmPlane& plane)
        : half_m_(0.5 * width_m),
          plane_(plane),
          turned_(math::sin_cos(math::deg_to_rad(plane.convergence_deg()))) {}
    Bar at(const Crossbar& bar) {
        const EastNorth middle = plane_.to_plane(bar.middle);
        const double east_m = half_m_ * (bar.left_east * turned_.cos - bar.left_north * turned_.sin);
        const double north_m = half_m_ * (bar.left_north * turned_.cos + bar.left_east * turned_.sin);
        return {{middle.east_m + east_m, middle.north_m + north_m},
                {middle.east_m - east_m, middle.north_m - north_m}};
    }

  private:
    double half_m_;
    UtmPlane& plane_;
    math::SinCos<double> turned_;
};

double square_of_gap(EastNorth a, EastNorth b) {
    return (a.east_m - b.east_m) * (a.east_m - b.east_m) + (a.north_m - b.north_m) * (a.north_m - b.north_m);
}

// Lays a strip's ground in pieces as long as it runs straight: a raster's cost goes with their number.
class GroundLayer {
  public:
    GroundLayer(CellGrid& grid, const Bar& first) : grid_(grid), from_(first), last_(first) {}
    void go_to(const Bar& bar) {
        if (bars_ > 0 && (bars_ == kMostBars || !straight(bar))) lay_to(last_);
        if (bars_ == 0) first_ = bar;
        last_ = bar;
        ++bars_;
    }
    void finish() {
        if (bars_ > 0) lay_to(last_);
    }

  private:
    static constexpr int kMostBars = 6;
    static constexpr double kAsideM2 = 0.05 * 0.05;

    // Whether the piece's first and last bars lie on the lines to this one.
    [[nodiscard]] bool straight(const Bar& bar) const {
        return off_m2(from_.left, bar.left, first_.left) < kAsideM2 &&
               off_m2(from_.right, bar.right, first_.right) < kAsideM2 &&
               off_m2(from_.left, bar.left, last_.left) < kAsideM2 &&
               off_m2(from_.right, bar.right, last_.right) < kAsideM2;
    }
    // Square of a place's distance from the line.
    static double off_m2(EastNorth from, EastNorth to, EastNorth place) {
        const double long_m2 = square_of_gap(from, to);
        if (long_m2 <= 0.0) return square_of_gap(from, place);
        const double cross = (to.east_m - from.east_m) * (place.north_m - from.north_m) -
                             (to.north_m - from.north_m) * (place.east_m - from.east_m);
        return cross * cross / long_m2;
    }
    void lay_to(const Bar& bar) {
        grid_.lay(from_.left, from_.right, bar.right, bar.left);
        from_ = bar;
        bars_ = 0;
    }
    CellGrid& grid_;
    Bar from_;   // where the piece begins
    Bar first_;  // after it
    Bar last_;
    int bars_ = 0;  // in the piece, after from_
};

void add_shares(const Bar& from, const Bar& to, CellGrid& grid, std::vector<CellShare>& shares) {
    const std::size_t first = shares.size();
    const CellPlace corner = grid.place_of(from.left);
    if (grid.place_of(from.right) == corner && grid.place_of(to.right) == corner &&
        grid.place_of(to.left) == corner) {
        shares.push_back({grid.cell_at(from.left), 1.0});
        return;
    }
    const EastNorth back = between(from.left, from.right, 0.5);
    const EastNorth ahead = between(to.left, to.right, 0.5);
    const double far_m = length_of_m(ahead.east_m - back.east_m, ahead.north_m - back.north_m);
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
    BarMaker bars(width_m, grid.plane());
    for (const CutStrip& strip : cut_strips(points, width_m)) {
        Bar back = bars.at(strip.crossbars.front());
        GroundLayer ground(grid, back);
        for (std::size_t i = 1; i < strip.crossbars.size(); ++i) {
            const Bar ahead = bars.at(strip.crossbars[i]);
            SwathQuad quad;
            quad.start_us = strip.crossbars[i - 1].time_us;
            quad.end_us = strip.crossbars[i].time_us;
            quad.from_m2 = area.at(quad.start_us);
            quad.to_m2 = area.at(quad.end_us);
            quad.first_share = swath.shares.size();
            add_shares(back, ahead, grid, swath.shares);
            quad.shares = swath.shares.size() - quad.first_share;
            ground.go_to(ahead);
            swath.quads.push_back(quad);
            back = ahead;
        }
        ground.finish();
    }
    return swath;
}

}  // namespace podrate::sim
