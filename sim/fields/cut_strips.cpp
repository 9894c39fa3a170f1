#include "fields/cut_strips.hpp"

#include <algorithm>
#include <cmath>

#include "geo/local_frame.hpp"

namespace podrate::sim {
namespace {

constexpr double kLeastStepM = 1.5;      // places nearer to one another tell no direction, and cost time
constexpr double kChordM = 3.0;          // the way's direction is taken over so much to both sides
constexpr double kFollowsS = 2.5;        // places no further apart need only be roughly right
constexpr double kFarther = 1.5;         // ... so many times the rolled distance, and
constexpr double kFartherM = 3.0;        // so much beside, since a receiver wanders
constexpr double kStraightShare = 0.15;  // over longer gaps distance and roll agree to that
constexpr double kStraightM = 2.0;
constexpr int kMostRefused = 5;  // then the one before was the wild one

double apart_m(EastNorth a, EastNorth b) {
    return length_of_m(b.east_m - a.east_m, b.north_m - a.north_m);
}

// Follows a machine's points and cuts its way into strips.
class StripMaker {
  public:
    explicit StripMaker(double width_m) : width_m_(width_m) {}

    void take(const WorkPoint& point) {
        rolled_m_ += static_cast<double>(point.area_m2) / width_m_;
        if (point.area_m2 <= 0.0F) end_run(point);
        if (!point.placed) return;
        if (way_.empty() || point.area_m2 <= 0.0F) {
            begin_at(point);
            return;
        }
        const EastNorth here = frame_.to_east_north(point.place());
        const double far_m = apart_m(way_.back(), here);
        if (!likely(far_m, seconds(point.time_us - newest_us_))) {
            if (++refused_ <= kMostRefused) return;
            close();
            begin_at(point);
            return;
        }
        refused_ = 0;
        newest_ = here;
        newest_us_ = point.time_us;
        if (far_m >= kLeastStepM) step_to(here);
    }
    std::vector<CutStrip> finish() {
        close();
        return std::move(strips_);
    }

  private:
    static double seconds(TimeUs span_us) { return static_cast<double>(span_us) / 1e6; }

    [[nodiscard]] bool likely(double far_m, double dt_s) const {
        if (dt_s <= kFollowsS) return far_m <= kFarther * rolled_m_ + kFartherM;
        return std::abs(far_m - rolled_m_) <= kStraightShare * rolled_m_ + kStraightM;
    }
    void begin_at(const WorkPoint& point) {
        frame_ = LocalFrame(point.place());
        way_ = {EastNorth{}};
        times_us_ = {point.time_us};
        rolled_.clear();
        rolled_m_ = 0.0;
        refused_ = 0;
        newest_ = EastNorth{};
        newest_us_ = point.time_us;
    }
    void step_to(EastNorth here) {
        way_.push_back(here);
        times_us_.push_back(newest_us_);
        rolled_.push_back(rolled_m_);
        rolled_m_ = 0.0;
    }
    // The reel was off from somewhere in the second before: the last step counts as far as it rolled.
    void end_run(const WorkPoint& point) {
        if (way_.size() > 1 && apart_m(way_.back(), newest_) > 1e-3) step_to(newest_);
        close();
        if (!point.placed) way_.clear();
    }
    void close() {
        if (way_.size() > 1) {
            shorten(way_[0], way_[1], rolled_.front());
            if (way_.size() > 2) shorten(way_.back(), way_[way_.size() - 2], rolled_.back());
            strips_.push_back(strip());
        }
        way_.clear();
        rolled_.clear();
    }
    // Moves a loose end nearer to its neighbour where less was rolled with the reel on.
    static void shorten(EastNorth& end, EastNorth to, double rolled_m) {
        const double far_m = apart_m(end, to);
        if (rolled_m >= far_m) return;
        const double by = 1.0 - rolled_m / far_m;
        end = {end.east_m + by * (to.east_m - end.east_m), end.north_m + by * (to.north_m - end.north_m)};
    }
    // From there, the place at least a chord away along the way, before it or after.
    [[nodiscard]] EastNorth chord_end(std::size_t from, int way) const {
        std::size_t i = from;
        double gone_m = 0.0;
        while (gone_m < kChordM && (way < 0 ? i > 0 : i + 1 < way_.size())) {
            const std::size_t next = way < 0 ? i - 1 : i + 1;
            gone_m += apart_m(way_[i], way_[next]);
            i = next;
        }
        return way_[i];
    }
    [[nodiscard]] CutStrip strip() const {
        CutStrip strip;
        strip.width_m = width_m_;
        for (std::size_t i = 0; i < way_.size(); ++i) {
            const EastNorth back = chord_end(i, -1);
            const EastNorth ahead = chord_end(i, 1);
            const double chord_m = apart_m(back, ahead);
            if (chord_m <= 0.0) continue;
            strip.crossbars.push_back({times_us_[i], frame_.to_lat_lon(way_[i]),
                                       -(ahead.north_m - back.north_m) / chord_m,
                                       (ahead.east_m - back.east_m) / chord_m});
        }
        return strip;
    }

    double width_m_;
    LocalFrame frame_{LatLon{}};
    std::vector<EastNorth> way_;  // of the run under way, on the plane of its first place
    std::vector<TimeUs> times_us_;
    std::vector<double> rolled_;  // between them, with the reel on
    double rolled_m_ = 0.0;       // since the last of them
    EastNorth newest_;            // the last place believed
    TimeUs newest_us_ = 0;
    int refused_ = 0;
    std::vector<CutStrip> strips_;
};

}  // namespace

LatLon beside(const Crossbar& bar, double left_m) {
    return LocalFrame(bar.middle).to_lat_lon({left_m * bar.left_east, left_m * bar.left_north});
}

std::vector<CutStrip> cut_strips(const std::vector<WorkPoint>& points, double width_m) {
    StripMaker maker(width_m);
    for (const WorkPoint& point : points) maker.take(point);
    return maker.finish();
}

}  // namespace podrate::sim
