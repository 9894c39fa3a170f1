// The feed that lies behind peas that passed: F = ratio q exp(hazard(F)), solved by halving in double.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "podrate/loss/passed_feed.hpp"

using namespace podrate;

namespace {

constexpr double kFeedPerPea = 5.2;

LossCurve<Real> curve_at(double level_more) {
    LossCurve<Real> curve;
    curve.level_a = LossCurve<Real>::level_for(Real(0.035)) + static_cast<Real>(level_more);
    return curve;
}

LossCurve<double> wide(const LossCurve<Real>& curve) {
    return {static_cast<double>(curve.picking_share), static_cast<double>(curve.level_a),
            static_cast<double>(curve.rated_feed_kgps), static_cast<double>(curve.steepness_kgps)};
}

double fold_at(const LossCurve<double>& curve, double feed_kgps) {
    return curve.hazard(feed_kgps) * feed_kgps / curve.steepness_kgps;
}

double fold_feed_kgps(const LossCurve<double>& curve) {
    double low = 0.0;
    double high = 100.0;
    for (int i = 0; i < 100; ++i) {
        const double middle = 0.5 * (low + high);
        (fold_at(curve, middle) < 1.0 ? low : high) = middle;
    }
    return low;
}

// The lower of the two feeds at which that much passes.
double exact_feed_kgps(const LossCurve<double>& curve, double passed_kgps) {
    double low = 0.0;
    double high = fold_feed_kgps(curve);
    for (int i = 0; i < 100; ++i) {
        const double middle = 0.5 * (low + high);
        (middle * std::exp(-curve.hazard(middle)) < kFeedPerPea * passed_kgps ? low : high) = middle;
    }
    return low;
}

// Largest error of the hazard, or twice that of the feed, as a share, among feeds that lie so far on the way
// to the fold.
double worst_error(double from_fold, double to_fold) {
    double worst = 0.0;
    for (const double level_more : {-1.0, 0.0, 1.0, 2.0}) {
        const LossCurve<Real> curve = curve_at(level_more);
        const LossCurve<double> exact = wide(curve);
        const double most_kgps =
            fold_feed_kgps(exact) * std::exp(-exact.hazard(fold_feed_kgps(exact))) / kFeedPerPea;
        for (double passed_kgps = 0.01; passed_kgps < most_kgps; passed_kgps += 0.01) {
            const double feed_kgps = exact_feed_kgps(exact, passed_kgps);
            const double fold = fold_at(exact, feed_kgps);
            if (fold < from_fold || fold >= to_fold) continue;
            const PassedFeed<Real> there =
                feed_where_passed(curve, Real(kFeedPerPea), static_cast<Real>(passed_kgps));
            const double hazard_error = static_cast<double>(there.hazard) / exact.hazard(feed_kgps) - 1.0;
            const double feed_error = static_cast<double>(there.feed_kgps) / feed_kgps - 1.0;
            worst = std::max({worst, std::abs(hazard_error), 2.0 * std::abs(feed_error)});
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("Feed and hazard where peas passed are those of the exact solution") {
    // Each round brings the fold's share of what is missing, so that nearer the fold more stays missing.
    CHECK(worst_error(0.0, 0.3) < 0.003);
    CHECK(worst_error(0.3, 0.5) < 0.03);
    CHECK(worst_error(0.5, 0.7) < 0.10);
}

TEST_CASE("How much steeper the hazard answers to the level is that of the exact solution") {
    for (const double passed_kgps : {0.3, 1.0, 1.6}) {
        INFO("passed " << passed_kgps << " kg/s");
        const auto exact_ln_hazard = [&](double level_more) {
            LossCurve<double> curve = wide(curve_at(0.0));
            curve.level_a += level_more;
            return std::log(curve.hazard(exact_feed_kgps(curve, passed_kgps)));
        };
        const double slope = (exact_ln_hazard(0.01) - exact_ln_hazard(-0.01)) / 0.02;
        const PassedFeed<Real> there =
            feed_where_passed(curve_at(0.0), Real(kFeedPerPea), static_cast<Real>(passed_kgps));
        CHECK(static_cast<double>(there.steeper) == Approx(slope).epsilon(0.005));
    }
}

TEST_CASE("A rate that no feed lets pass is read as one at the fold") {
    for (const double level_more : {-2.0, 0.0, 2.5}) {
        const LossCurve<Real> curve = curve_at(level_more);
        Real last = Real(0);
        for (const double passed_kgps : {8.0, 20.0, 50.0, 1e6}) {
            INFO("level " << level_more << ", passed " << passed_kgps << " kg/s");
            const PassedFeed<Real> there =
                feed_where_passed(curve, Real(kFeedPerPea), static_cast<Real>(passed_kgps));
            CHECK(std::isfinite(there.feed_kgps));
            CHECK(there.feed_kgps > last);
            CHECK(there.hazard > Real(0));
            CHECK(there.hazard * there.feed_kgps <= curve.steepness_kgps * Real(1.0001));
            CHECK(there.steeper == Real(2));
            last = there.feed_kgps;
        }
    }
}

TEST_CASE("Where nothing passed the hazard is that of an empty drum") {
    const LossCurve<Real> curve = curve_at(0.0);
    const PassedFeed<Real> there = feed_where_passed(curve, Real(kFeedPerPea), Real(0));
    CHECK(there.feed_kgps == Real(0));
    CHECK(there.hazard == curve.hazard(Real(0)));
    CHECK(there.steeper == Real(1));
}
