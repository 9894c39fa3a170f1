#include "podrate/loss/loss_curve.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate;

namespace {

LossCurve<double> curve(double picking, double drum_at_rated, double rated, double steepness) {
    LossCurve<double> c;
    c.picking_share = picking;
    c.level_a = LossCurve<double>::level_for(drum_at_rated);
    c.rated_feed_kgps = rated;
    c.steepness_kgps = steepness;
    return c;
}

}  // namespace

TEST_CASE("The loss lies between the picking loss and 1 and never falls with the feed") {
    for (const double picking : {0.0, 0.04, 0.5}) {
        for (const double drum : {0.001, 0.035, 0.6}) {
            for (const double steepness : {0.3, 3.5, 20.0}) {
                const LossCurve<double> c = curve(picking, drum, 8.0, steepness);
                double last = 0.0;
                for (double feed = 0.0; feed < 1000.0; feed += feed < 60.0 ? 0.05 : 10.0) {
                    const double loss = c.loss_share(feed);
                    REQUIRE(loss >= picking);
                    REQUIRE(loss < 1.0);
                    REQUIRE(loss >= last);
                    last = loss;
                }
            }
        }
    }
}

TEST_CASE("The level for a share makes the drum lose that share at the rated feed") {
    for (const double share : {0.001, 0.01, 0.035, 0.2, 0.6}) {
        INFO(share);
        const LossCurve<double> c = curve(0.0, share, 6.0, 2.0);
        CHECK(c.loss_share(6.0) == Approx(share).epsilon(1e-12));
        // Picking loss takes its share first, the drum its own of the rest.
        const LossCurve<double> both = curve(0.1, share, 6.0, 2.0);
        CHECK(both.loss_share(6.0) == Approx(1.0 - 0.9 * (1.0 - share)).epsilon(1e-12));
    }
}

TEST_CASE("The level agrees with its definition") {
    for (const double share : {0.001, 0.035, 0.3}) {
        CHECK(LossCurve<double>::level_for(share) == Approx(std::log(-std::log1p(-share))).epsilon(1e-13));
    }
}

TEST_CASE("A small drum loss grows by e over each steepness of feed") {
    const LossCurve<double> c = curve(0.0, 0.001, 8.0, 3.5);
    CHECK(c.loss_share(8.0 + 3.5) / c.loss_share(8.0) == Approx(std::exp(1.0)).epsilon(0.002));
}

TEST_CASE("At feeds beyond reason the drum loses 99.9 per cent and not all") {
    const LossCurve<double> c = curve(0.0, 0.035, 8.0, 3.5);
    CHECK(c.loss_share(1e6) == Approx(1.0 - std::exp(-std::exp(2.0))).epsilon(1e-12));
    CHECK(c.passed_share(c.hazard(1e6)) > 0.0);
}
