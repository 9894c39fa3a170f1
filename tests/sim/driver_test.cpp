#include "synth/machine/driver.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate::sim;

namespace {

constexpr double kStepS = 0.1;
constexpr double kUsualKgpm = 6.6;

ScenarioDriver steady(double eases_off) {
    ScenarioDriver told;
    told.speed_spread = 0.0;
    told.eases_off = eases_off;
    return told;
}

// The speed in an even crop, once it is felt.
double settled_mps(const ScenarioDriver& told, double crop_share, double lodged = 0.0) {
    Driver driver(told, kUsualKgpm, 1, "viner_1");
    double mps = 0.0;
    for (int i = 0; i < 3000; ++i) mps = driver.wish_mps(crop_share * kUsualKgpm, lodged, kStepS);
    CHECK(driver.last_wish_mps() == mps);
    return mps;
}

// Spread of the feed, as share of its mean, in a crop that rises and falls over a minute or so.
double feed_cv(double eases_off) {
    ScenarioDriver told;
    told.eases_off = eases_off;
    Driver driver(told, kUsualKgpm, 4, "viner_1");
    double sum = 0.0;
    double squares = 0.0;
    constexpr int kSteps = 200000;
    for (int i = 0; i < kSteps; ++i) {
        const double crop_kgpm = kUsualKgpm * (1.0 + 0.35 * std::sin(0.07 * kStepS * i));
        const double feed = driver.wish_mps(crop_kgpm, 0.0, kStepS) * crop_kgpm;
        sum += feed;
        squares += feed * feed;
    }
    const double mean = sum / kSteps;
    return std::sqrt(squares / kSteps - mean * mean) / mean;
}

}  // namespace

TEST_CASE("A driver who never minds the feed goes at the liked speed in any crop") {
    for (const double share : {0.3, 1.0, 2.0}) CHECK(settled_mps(steady(0.0), share) == Approx(0.8));
}

TEST_CASE("A driver who eases off goes by the power law of the crop, within limits") {
    CHECK(settled_mps(steady(1.0), 1.0) == Approx(0.8));
    CHECK(settled_mps(steady(1.0), 1.25) == Approx(0.8 / 1.25));
    CHECK(settled_mps(steady(0.5), 1.44) == Approx(0.8 / 1.2));
    // Nobody crawls or races for it.
    CHECK(settled_mps(steady(1.0), 8.0) == Approx(0.8 * 0.5));
    CHECK(settled_mps(steady(1.0), 0.2) == Approx(0.8 * 1.3));
    CHECK(settled_mps(steady(1.0), 0.0) == Approx(0.8 * 1.3));
}

TEST_CASE("A change of the crop is felt over some seconds") {
    Driver driver(steady(1.0), kUsualKgpm, 1, "viner_1");
    for (int i = 0; i < 80; ++i) (void)driver.wish_mps(1.5 * kUsualKgpm, 0.0, kStepS);
    // 8 s, the time of reaction: 1 - 1/e of the change.
    const double felt = 1.0 + 0.5 * (1.0 - std::exp(-1.0));
    CHECK(driver.last_wish_mps() == Approx(0.8 / felt).epsilon(0.005));
}

TEST_CASE("A driver who eases off holds the feed more even") {
    const double never = feed_cv(0.0);
    const double half = feed_cv(0.5);
    const double always = feed_cv(1.0);
    // A sine of 0.35 beside the wandering of the liking.
    CHECK(never == Approx(std::sqrt(0.35 * 0.35 / 2.0 + 0.1 * 0.1)).epsilon(0.1));
    CHECK(half < 0.85 * never);
    CHECK(always < 0.75 * never);
}

TEST_CASE("A driver goes slower in crop that lies flat") {
    CHECK(settled_mps(steady(0.0), 1.0, 1.0) < 0.75 * settled_mps(steady(0.0), 1.0));
    CHECK(settled_mps(steady(0.0), 1.0, 0.5) > settled_mps(steady(0.0), 1.0, 1.0));
}

TEST_CASE("The liked speed wanders with the told spread over a minute and a half") {
    constexpr int kSteps = 2000000;
    constexpr int kLag = 900;
    for (const double spread : {0.05, 0.1}) {
        ScenarioDriver told;
        told.speed_spread = spread;
        Driver driver(told, kUsualKgpm, 7, "viner_1");
        std::vector<double> off;
        for (int i = 0; i < kSteps; ++i)
            off.push_back(driver.wish_mps(kUsualKgpm, 0.0, kStepS) / told.speed_mps - 1.0);
        double sum = 0.0;
        double squares = 0.0;
        double lagged = 0.0;
        for (int i = 0; i < kSteps; ++i) {
            const auto at = static_cast<std::size_t>(i);
            sum += off[at];
            squares += off[at] * off[at];
            if (i >= kLag) lagged += off[at] * off[at - kLag];
        }
        // 2200 memories long, each worth about half an independent value.
        CHECK(sum / kSteps == Approx(0.0).margin(5.0 * spread / std::sqrt(1100.0)));
        CHECK(std::sqrt(squares / kSteps) == Approx(spread).epsilon(0.08));
        CHECK(lagged / squares == Approx(std::exp(-1.0)).margin(0.12));
    }
}

TEST_CASE("No driver stands still in the crop") {
    ScenarioDriver told;
    told.speed_mps = 0.3;
    told.speed_spread = 0.5;
    told.eases_off = 1.5;
    Driver driver(told, kUsualKgpm, 2, "viner_1");
    for (int i = 0; i < 50000; ++i) REQUIRE(driver.wish_mps(3.0 * kUsualKgpm, 1.0, kStepS) >= 0.3);
}

TEST_CASE("Another shift likes another speed, spread about the told one") {
    double sum = 0.0;
    double squares = 0.0;
    constexpr int kDrivers = 2000;
    Driver driver(steady(0.0), kUsualKgpm, 3, "viner_1");
    double before_mps = driver.wish_mps(kUsualKgpm, 0.0, kStepS);
    CHECK(before_mps == Approx(0.8));
    for (int i = 0; i < kDrivers; ++i) {
        driver.hand_over();
        const double mps = driver.wish_mps(kUsualKgpm, 0.0, kStepS);
        CHECK(mps != before_mps);
        before_mps = mps;
        const double off = mps / 0.8 - 1.0;
        sum += off;
        squares += off * off;
    }
    CHECK(sum / kDrivers == Approx(0.0).margin(5.0 * 0.08 / std::sqrt(kDrivers)));
    CHECK(std::sqrt(squares / kDrivers) == Approx(0.08).epsilon(5.0 / std::sqrt(2.0 * kDrivers)));
}
