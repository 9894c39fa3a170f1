// Loss and load rate as functions of the speed ahead, against their definitions and against many drawn
// beliefs.
#include <Eigen/Cholesky>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/normals.hpp"
#include "core/rig.hpp"
#include "podrate/advice/advisor.hpp"
#include "podrate/choices.hpp"

using namespace podrate;
using test::Normals;
using test::Rig;

namespace {

double number(Real value) {
    return static_cast<double>(value);
}

double ln_sd_of(const SpeedRange& range) {
    return std::log(number(range.high_mps / range.low_mps)) / (2.0 * 1.6448536);
}

// Half an hour of work at three speeds with a tray at each.
FlowFilter worked_filter() {
    Rig rig(41);
    rig.machine.stand(5.0);
    for (const double speed_mps : {0.5, 0.8, 1.0, 0.5, 0.8, 1.0}) {
        rig.machine.drive(250.0, speed_mps);
        const TimeUs about_us = rig.machine.now_us() - 60 * kSecondUs;
        rig.estimator.feed(tray_sample(rig.machine.now_us(), about_us,
                                       static_cast<float>(rig.machine.ground_kgpm2(speed_mps)), 0.3F));
    }
    return rig.estimator.filter();
}

std::vector<FlowFilter> some_filters() {
    std::vector<FlowFilter> filters = {FlowFilter{Parameters{}}, worked_filter()};
    for (const double crop_kgpm2 : {0.2, 1.2}) {
        for (const double drum_loss_share : {0.005, 0.15}) {
            Parameters parameters;
            parameters.crop_kgpm2 = static_cast<Real>(crop_kgpm2);
            parameters.drum_loss_share = static_cast<Real>(drum_loss_share);
            filters.emplace_back(parameters);
        }
    }
    return filters;
}

// As it begins to cut.
FlowFilter begun_filter(const Parameters& parameters = Parameters{}) {
    FlowFilter filter(parameters);
    Intake intake;
    intake.dt_s = Real(0.1);
    intake.distance_m = Real(0.08);
    intake.area_m2 = Real(3.3 * 0.08);
    filter.predict(intake);
    return filter;
}

// The curve and crop of one drawn belief, in double.
struct DrawnPlant {
    double level_a;
    double picking_share;
    double taken_in_kgpm2;
    double feed_per_pea;
    double usual_feed_kgps;
    double steeper;  // than told, about the usual feed

    [[nodiscard]] double hazard(double speed_mps) const {
        const double feed_kgps = feed_per_pea * taken_in_kgpm2 * 3.3 * speed_mps;
        return std::exp(level_a + (usual_feed_kgps - 8.0) / 3.5 +
                        steeper * (feed_kgps - usual_feed_kgps) / 3.5);
    }
    [[nodiscard]] double loss_share(double speed_mps) const {
        return 1.0 - (1.0 - picking_share) * std::exp(-hazard(speed_mps));
    }
    [[nodiscard]] double rate_kgps(double speed_mps) const {
        return taken_in_kgpm2 * 3.3 * speed_mps * std::exp(-hazard(speed_mps));
    }
};

// Speed at which `value`, which rises with it, comes to `wanted`; negative where it does not below
// `most_mps`.
template <class Value>
double speed_where(const Value& value, double wanted, double most_mps) {
    if (value(most_mps) < wanted) return -1.0;
    double low = 0.0;
    double high = most_mps;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (value(middle) < wanted ? low : high) = middle;
    }
    return high;
}

// Beliefs drawn from the filter's covariance, a tenth as wide, so that first order suffices. The crop's
// measure is what passes at the usual hazard: what is taken in follows from it and from the level.
// `shape_ln_sd`: of how steeply the hazard rises from the usual feed.
std::vector<DrawnPlant> drawn_plants(const FlowFilter& filter, int count, double shape_ln_sd) {
    constexpr double kNarrower = 0.1;
    Normals normals(70);
    using Wide = Eigen::Matrix<double, FlowFilter::size, FlowFilter::size>;
    const Wide root = Eigen::LLT<Wide>(filter.belief().covariance.cast<double>()).matrixL();
    const LossCurve<Real> curve = filter.curve();

    const double usual_hazard = number(filter.usual_hazard());
    const double usual_feed_kgps = 8.0 + 3.5 * (std::log(usual_hazard) - number(curve.level_a));
    std::vector<DrawnPlant> plants;
    for (int i = 0; i < count; ++i) {
        Eigen::Matrix<double, FlowFilter::size, 1> draw;
        for (int k = 0; k < FlowFilter::size; ++k) draw(k) = normals.next();
        draw = kNarrower * (root * draw);
        const double usual_then = usual_hazard * std::exp(draw(FlowFilter::level) + draw(FlowFilter::misfit));
        plants.push_back({number(curve.level_a) + draw(FlowFilter::level),
                          number(curve.picking_share) * std::exp(draw(FlowFilter::ln_picking)),
                          number(filter.taken_in_kgpm2()) *
                              std::exp(draw(FlowFilter::ln_mean) + usual_then - usual_hazard),

                          number(filter.feed_per_pea()), usual_feed_kgps,
                          std::exp(kNarrower * shape_ln_sd * normals.next())});
    }
    return plants;
}

// Ten times the spread of ln(speed), to make up for the narrower draws.
double ten_ln_sd(const std::vector<double>& speeds_mps) {
    double sum = 0.0;
    double squares = 0.0;
    for (const double speed_mps : speeds_mps) {
        REQUIRE(speed_mps > 0.0);
        sum += std::log(speed_mps);
        squares += std::log(speed_mps) * std::log(speed_mps);
    }
    const auto count = static_cast<double>(speeds_mps.size());
    return 10.0 * std::sqrt(squares / count - sum / count * sum / count);
}

}  // namespace

TEST_CASE("The speed under a loss limit is the one at which that much is lost") {
    for (const FlowFilter& filter : some_filters()) {
        const SpeedOutlook outlook(filter, Parameters{}.width_m);
        int known = 0;
        for (const double limit : {0.05, 0.08, 0.1, 0.2, 0.4, 0.8}) {
            INFO("limit " << limit);
            const SpeedRange most = outlook.under(static_cast<Real>(limit));
            if (!most.known) continue;
            ++known;
            CHECK(number(outlook.loss_share(most.speed_mps)) == Approx(limit).epsilon(1e-4));
            CHECK(most.low_mps < most.speed_mps);
            CHECK(most.speed_mps < most.high_mps);
        }
        CHECK(known >= 4);
    }
}

TEST_CASE("Where picking alone fills the limit no speed is under it") {
    Parameters parameters;
    parameters.picking_loss_share = Real(0.1);
    const FlowFilter filter(parameters);
    const SpeedOutlook outlook(filter, parameters.width_m);
    for (const double limit : {0.02, 0.0999, 0.1, 0.101}) {
        INFO("limit " << limit);
        CHECK_FALSE(outlook.under(static_cast<Real>(limit)).known);
    }
    CHECK(outlook.under(Real(0.12)).known);
}

TEST_CASE("Where the drum loses more than the limit at any working speed none is under it") {
    Parameters parameters;
    parameters.drum_loss_share = Real(0.6);
    const FlowFilter filter(parameters);
    CHECK_FALSE(SpeedOutlook(filter, parameters.width_m).under(Real(0.06)).known);
}

TEST_CASE("The speed for a load rate brings that rate, below the fold") {
    for (const FlowFilter& filter : some_filters()) {
        const SpeedOutlook outlook(filter, Parameters{}.width_m);
        const Real most_kgps = outlook.rate_kgps(outlook.fold_mps());
        for (const double share : {0.05, 0.3, 0.6, 0.9, 0.97}) {
            INFO("at " << share << " of the most");
            const Real wanted_kgps = static_cast<Real>(share) * most_kgps;
            const SpeedRange speed = outlook.for_rate(wanted_kgps);
            REQUIRE(speed.known);
            CHECK(number(outlook.rate_kgps(speed.speed_mps)) == Approx(number(wanted_kgps)).epsilon(1e-4));
            CHECK(speed.speed_mps < outlook.fold_mps());
            CHECK(speed.low_mps < speed.speed_mps);
            CHECK(speed.speed_mps < speed.high_mps);
        }
        CHECK_FALSE(outlook.for_rate(Real(0)).known);
        CHECK_FALSE(outlook.for_rate(Real(1.01) * most_kgps).known);
    }
}

TEST_CASE("At the fold more speed begins to bring fewer peas") {
    for (const FlowFilter& filter : some_filters()) {
        const SpeedOutlook outlook(filter, Parameters{}.width_m);
        const Real fold_mps = outlook.fold_mps();
        const auto slope = [&](double share) {
            const Real here = fold_mps * static_cast<Real>(share);
            const Real step = Real(0.01) * fold_mps;
            return number(outlook.rate_kgps(here + step) - outlook.rate_kgps(here - step)) /
                   number(outlook.rate_kgps(fold_mps)) / 0.02;
        };
        CHECK(std::abs(slope(1.0)) < 0.01);
        CHECK(slope(0.9) > 0.02);
        CHECK(slope(1.1) < -0.02);
    }
}

TEST_CASE("What comes and what is left on the ground is all that stood") {
    for (const FlowFilter& filter : some_filters()) {
        const SpeedOutlook outlook(filter, Parameters{}.width_m);
        const double standing_kgpm2 =
            number(filter.taken_in_kgpm2()) / (1.0 - number(filter.curve().picking_share));
        for (const double speed_mps : {0.2, 0.8, 1.5}) {
            const auto speed = static_cast<Real>(speed_mps);
            const double came_kgpm2 = number(outlook.rate_kgps(speed)) / (3.3 * speed_mps);
            CHECK(came_kgpm2 + number(outlook.ground_kgpm2(speed)) == Approx(standing_kgpm2).epsilon(1e-4));
            CHECK(number(outlook.ground_kgpm2(speed)) ==
                  Approx(standing_kgpm2 * number(outlook.loss_share(speed))).epsilon(1e-4));
        }
    }
}

TEST_CASE("The load rate ahead is the filter's own, as long as it follows the curve") {
    for (const FlowFilter& filter : {FlowFilter{Parameters{}}, worked_filter()}) {
        const SpeedOutlook outlook(filter, Parameters{}.width_m);
        for (const double speed_mps : {0.3, 0.6, 0.9, 1.2}) {
            INFO("at " << speed_mps << " m/s");
            const auto area_rate_m2ps = static_cast<Real>(3.3 * speed_mps);
            const Real own_kgps = filter.yield_ahead_kgpm2(area_rate_m2ps) * area_rate_m2ps;
            // The misfit, which the advice leaves out, moves it a little.
            CHECK(number(outlook.rate_kgps(static_cast<Real>(speed_mps))) ==
                  Approx(number(own_kgps)).epsilon(0.01));
        }
    }
}

TEST_CASE("The interval of the speed under a limit is that of many drawn beliefs") {
    const double shape_ln_sd =
        std::hypot(number(choices::advice::kSteepnessLnSd), number(choices::advice::kHaulmLnSd));
    for (const FlowFilter& filter : {begun_filter(), worked_filter()}) {
        const SpeedRange told = SpeedOutlook(filter, Parameters{}.width_m).under(Real(0.1));
        REQUIRE(told.known);
        std::vector<double> speeds_mps;
        for (const DrawnPlant& plant : drawn_plants(filter, 4000, shape_ln_sd)) {
            speeds_mps.push_back(speed_where([&](double v) { return plant.loss_share(v); }, 0.1, 10.0));
        }
        INFO("ln sd " << ten_ln_sd(speeds_mps));
        CHECK(ln_sd_of(told) == Approx(ten_ln_sd(speeds_mps)).epsilon(0.06));
    }
}

TEST_CASE("The interval of the speed for a load rate is that of many drawn beliefs") {
    // Of one the crop is known, the drum hardly: what passes at the usual speed is then known all the same.
    Parameters known_crop;
    known_crop.crop_ln_sd = Real(0.05);
    known_crop.drum_loss_ln_sd = Real(2);
    for (const FlowFilter& filter : {begun_filter(), worked_filter(), begun_filter(known_crop)}) {
        const SpeedOutlook outlook(filter, Parameters{}.width_m);
        for (const double rate_kgps : {0.8, 1.2}) {
            INFO("for " << rate_kgps << " kg/s");
            const SpeedRange told = outlook.for_rate(static_cast<Real>(rate_kgps));
            REQUIRE(told.known);
            std::vector<double> speeds_mps;
            for (const DrawnPlant& plant : drawn_plants(filter, 4000, 0.0)) {
                speeds_mps.push_back(speed_where([&](double v) { return plant.rate_kgps(v); }, rate_kgps,
                                                 number(outlook.fold_mps())));
            }
            INFO("ln sd " << ten_ln_sd(speeds_mps));
            CHECK(ln_sd_of(told) == Approx(ten_ln_sd(speeds_mps)).epsilon(0.06));
        }
    }
}
