// Trays: peas counted on the ground, in the filter alone and behind a whole machine.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/bits.hpp"
#include "core/least_eigenvalue.hpp"
#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

constexpr double kRates_m2ps[] = {1.6, 2.6, 3.6};

double mean(const FlowFilter& filter, FlowFilter::State state) {
    return static_cast<double>(filter.belief().mean(state));
}

double sd(const FlowFilter& filter, FlowFilter::State state) {
    return std::sqrt(static_cast<double>(filter.belief().covariance(state, state)));
}

// A plant that differs from what was told by `level` and `ln_picking`.
struct Plant {
    double level;
    double ln_picking;
    [[nodiscard]] double picking_share() const { return 0.04 * std::exp(ln_picking); }
    [[nodiscard]] PassedPlace place(double area_rate_m2ps, double taken_in_kgpm2 = 0.48) const {
        const double feed_kgps = 5.0 / 0.96 * taken_in_kgpm2 * area_rate_m2ps;
        const double hazard = -std::log(1.0 - 0.035) * std::exp(level + (feed_kgps - 8.0) / 3.5);
        PassedPlace place;
        place.area_rate_m2ps = static_cast<Real>(area_rate_m2ps);
        place.passed_kgpm2 = static_cast<Real>(taken_in_kgpm2 * std::exp(-hazard));
        return place;
    }
    [[nodiscard]] Real ground_kgpm2(double area_rate_m2ps, double taken_in_kgpm2 = 0.48) const {
        const auto passed = static_cast<double>(place(area_rate_m2ps, taken_in_kgpm2).passed_kgpm2);
        return static_cast<Real>(taken_in_kgpm2 / (1.0 - picking_share()) - passed);
    }
};

void count(FlowFilter& filter, const Plant& plant, double area_rate_m2ps, double sd_share,
           double ln_excess_sd = 0.0) {
    filter.update_tray(plant.place(area_rate_m2ps), plant.ground_kgpm2(area_rate_m2ps),
                       static_cast<Real>(sd_share), static_cast<Real>(ln_excess_sd));
}

// How far an update has moved the level, in standard deviations of before.
double pull(const PassedPlace& place, double ground_kgpm2, double sd_share, double ln_excess_sd = 0.25) {
    FlowFilter filter{test::told_right()};
    const double before = sd(filter, FlowFilter::level);
    filter.update_tray(place, static_cast<Real>(ground_kgpm2), static_cast<Real>(sd_share),
                       static_cast<Real>(ln_excess_sd));
    return mean(filter, FlowFilter::level) / before;
}

void check_valid(const FlowFilter& filter) {
    CHECK(filter.belief().mean.allFinite());
    CHECK(test::least_eigenvalue(filter.belief().covariance) > 0.0);
    CHECK(std::abs(mean(filter, FlowFilter::level)) <= 2.5);
    CHECK(filter.picking_share() >= Real(0.0019));
    CHECK(filter.picking_share() <= Real(0.601));
}

}  // namespace

TEST_CASE("Exact trays at three feeds bring level and picking to the plant's") {
    for (const Plant plant : {Plant{0.6, 0.7}, Plant{-0.6, 0.5}, Plant{0.8, -0.6}, Plant{0.0, 0.0}}) {
        INFO("level " << plant.level << ", ln picking " << plant.ln_picking);
        FlowFilter filter{test::told_right()};
        int rounds = 0;
        const auto count_on = [&](int to_rounds) {
            for (; rounds < to_rounds; ++rounds) {
                for (const double rate_m2ps : kRates_m2ps) count(filter, plant, rate_m2ps, 0.01);
            }
        };
        // Each tray's ground may differ by a tenth from the swath's, so that even exact counts need many.
        count_on(10);
        CHECK(mean(filter, FlowFilter::level) == Approx(plant.level).margin(0.15));
        CHECK(mean(filter, FlowFilter::ln_picking) == Approx(plant.ln_picking).margin(0.15));
        CHECK(sd(filter, FlowFilter::level) < 0.15);
        CHECK(sd(filter, FlowFilter::ln_picking) < 0.1);
        CHECK(static_cast<double>(filter.level_learnt()) ==
              Approx(1.0 - sd(filter, FlowFilter::level) / static_cast<double>(Parameters{}.drum_loss_ln_sd))
                  .margin(1e-5));
        count_on(40);
        CHECK(mean(filter, FlowFilter::level) == Approx(plant.level).margin(0.06));
        CHECK(mean(filter, FlowFilter::ln_picking) == Approx(plant.ln_picking).margin(0.06));
        check_valid(filter);
    }
}

TEST_CASE("Trays at one feed tell the sum of both losses, not which") {
    const Plant plant{0.6, 0.7};
    FlowFilter filter{test::told_right()};
    for (int i = 0; i < 30; ++i) count(filter, plant, 2.6, 0.01);
    const double rate_m2ps = 2.6;
    const double truth =
        static_cast<double>(plant.ground_kgpm2(rate_m2ps)) / (0.48 / (1.0 - plant.picking_share()));
    const LossCurve<Real> curve = filter.curve();
    CHECK(static_cast<double>(curve.loss_share(Real(5.0 / 0.96 * 0.48 * 2.6))) ==
          Approx(truth).epsilon(0.05));
    CHECK(sd(filter, FlowFilter::level) > 0.25);
    const auto tie =
        static_cast<double>(filter.belief().covariance(FlowFilter::level, FlowFilter::ln_picking));
    CHECK(tie / (sd(filter, FlowFilter::level) * sd(filter, FlowFilter::ln_picking)) < -0.8);
}

TEST_CASE("What the sensor told of the place is no news about the level") {
    const Plant truth{0.0, 0.0};
    const Plant richer{0.4, 0.0};  // there alone
    PassedPlace place = richer.place(2.6);
    FlowFilter told{test::told_right()};
    FlowFilter not_told{test::told_right()};
    for (int i = 0; i < 10; ++i) {
        place.ln_excess = Real(0.4);
        told.update_tray(place, richer.ground_kgpm2(2.6), Real(0.05), Real(0));
        place.ln_excess = Real(0);
        not_told.update_tray(place, richer.ground_kgpm2(2.6), Real(0.05), Real(0));
    }
    CHECK(mean(told, FlowFilter::level) == Approx(truth.level).margin(0.01));
    CHECK(mean(not_told, FlowFilter::level) > 0.05);
}

TEST_CASE("A tray pulls less the vaguer its count and the more the place may differ") {
    const Plant plant{0.8, 0.0};
    const PassedPlace place = plant.place(2.6);
    const auto ground_kgpm2 = static_cast<double>(plant.ground_kgpm2(2.6));
    double last = 1e9;
    for (const double sd_share : {0.01, 0.2, 0.5, 1.0, 2.0}) {
        INFO("sd " << sd_share);
        const double now = pull(place, ground_kgpm2, sd_share, 0.0);
        CHECK(now > 0.0);
        CHECK(now < last);
        last = now;
    }
    CHECK(last < 0.1 * pull(place, ground_kgpm2, 0.01, 0.0));
    CHECK(pull(place, ground_kgpm2, 0.1, 1.0) < 0.7 * pull(place, ground_kgpm2, 0.1, 0.0));
}

TEST_CASE("A tray of no peas is survived and says that less is lost") {
    for (const double sd_share : {0.01, 0.3, 1.0, 2.0}) {
        FlowFilter filter{test::told_right()};
        const PassedPlace place = Plant{0.0, 0.0}.place(2.6);
        for (int i = 0; i < 20; ++i) {
            filter.update_tray(place, Real(0), static_cast<Real>(sd_share), Real(0.25));
            check_valid(filter);
        }
        CHECK(mean(filter, FlowFilter::level) < 0.0);
        CHECK(mean(filter, FlowFilter::ln_picking) < 0.0);
    }
}

TEST_CASE("A tray of no peas, vaguely counted, pulls little") {
    const PassedPlace place = Plant{0.0, 0.0}.place(2.6);
    // As vague as that it may as well be one pea of a handful: it must not outweigh a tray that shows some.
    const double some = pull(place, 0.0005, 1.0);
    const double none = pull(place, 0.0, 1.0);
    INFO("some " << some << ", none " << none);
    CHECK(none < 0.0);
    CHECK(std::abs(none) < 1.5 * std::abs(some));
    CHECK(std::abs(pull(place, 0.0, 2.0)) < 0.7);
}

TEST_CASE("Trays beyond reason leave the filter within its bounds") {
    for (const double rate_m2ps : {0.3, 2.6, 20.0}) {
        for (const double passed_kgpm2 : {0.0, 1e-4, 0.5, 5.0}) {
            for (const double ground_kgpm2 : {0.0, 1e-5, 0.05, 5.0}) {
                INFO("rate " << rate_m2ps << ", passed " << passed_kgpm2 << ", ground " << ground_kgpm2);
                FlowFilter filter{test::told_right()};
                PassedPlace place;
                place.area_rate_m2ps = static_cast<Real>(rate_m2ps);
                place.passed_kgpm2 = static_cast<Real>(passed_kgpm2);
                for (int i = 0; i < 50; ++i) {
                    filter.update_tray(place, static_cast<Real>(ground_kgpm2), Real(0.01), Real(0));
                }
                check_valid(filter);
            }
        }
    }
}

TEST_CASE("Trays fed to a whole machine at three speeds tell its loss") {
    Rig rig(21, test::told_right());
    rig.machine.drum_loss_share = 0.06;
    rig.machine.picking_loss_share = 0.08;
    rig.machine.stand(5.0);
    int trays = 0;
    for (int round = 0; round < 4; ++round) {
        for (const double speed_mps : {0.5, 0.8, 1.1}) {
            rig.machine.drive(200.0, speed_mps);
            for (const double back_s : {120.0, 60.0}) {
                const auto about_us = rig.machine.now_us() - static_cast<TimeUs>(back_s * 1e6);
                const auto ground_kgpm2 = static_cast<float>(rig.machine.ground_kgpm2(speed_mps));
                CHECK(rig.estimator.feed(tray_sample(rig.machine.now_us(), about_us, ground_kgpm2, 0.05F)) ==
                      FeedResult::taken);
                CHECK(rig.read().tray_checks == ++trays);
            }
        }
        rig.machine.stand(20.0);
        rig.machine.tip();
    }
    const FlowFilter& filter = rig.estimator.filter();
    const double level = std::log(std::log(1.0 - 0.06) / std::log(1.0 - 0.035));
    INFO("sd " << sd(filter, FlowFilter::level) << " and " << sd(filter, FlowFilter::ln_picking));
    CHECK(mean(filter, FlowFilter::level) == Approx(level).margin(0.15));
    CHECK(mean(filter, FlowFilter::ln_picking) == Approx(std::log(2.0)).margin(0.15));
    for (const double speed_mps : {0.5, 0.8, 1.1}) {
        INFO("at " << speed_mps << " m/s");
        rig.machine.drive(60.0, speed_mps);
        const double truth = rig.machine.ground_kgpm2(speed_mps) / rig.machine.crop_kgpm2;
        const Estimate e = rig.read();
        CHECK(static_cast<double>(e.loss_share) == Approx(truth).epsilon(0.08));
        CHECK(static_cast<double>(e.loss_low) < truth);
        CHECK(static_cast<double>(e.loss_high) > truth);
        CHECK(static_cast<double>(e.ground_kgpm2) ==
              Approx(rig.machine.ground_kgpm2(speed_mps)).epsilon(0.1));
    }
}

TEST_CASE("A tray for a time at which nothing was cut is refused and changes nothing") {
    Rig rig(22);
    rig.machine.stand(5.0);
    rig.machine.drive(200.0, 0.8);
    rig.machine.stand(300.0);
    const TimeUs now_us = rig.machine.now_us();
    const FlowFilter before = rig.estimator.filter();
    const auto feed = [&](double back_s) {
        return rig.estimator.feed(
            tray_sample(now_us, now_us - static_cast<TimeUs>(back_s * 1e6), 0.04F, 0.1F));
    };
    CHECK(feed(0.0) == FeedResult::no_such_place);
    CHECK(feed(200.0) == FeedResult::no_such_place);
    CHECK(feed(86400.0) == FeedResult::no_such_place);
    CHECK(feed(-3600.0) == FeedResult::no_such_place);
    CHECK((rig.estimator.filter().belief().mean == before.belief().mean));
    CHECK((rig.estimator.filter().belief().covariance == before.belief().covariance));
    CHECK(rig.read().tray_checks == 0);
    CHECK(feed(400.0) == FeedResult::taken);
    CHECK(rig.read().tray_checks == 1);
    Estimator fresh{test::told_right()};
    CHECK(fresh.feed(tray_sample(kSecondUs, kSecondUs, 0.04F, 0.1F)) == FeedResult::no_such_place);
}

TEST_CASE("A tray counted while the scale is stuck is not taken back with the weight") {
    Rig rig(23);
    rig.machine.stand(5.0);
    rig.machine.drive(300.0, 0.8);
    rig.machine.frozen = true;
    rig.machine.drive(10.0, 0.8);
    const TimeUs now_us = rig.machine.now_us();
    CHECK(rig.estimator.feed(tray_sample(now_us, now_us - 100 * kSecondUs, 0.1F, 0.05F)) ==
          FeedResult::taken);
    const double level = mean(rig.estimator.filter(), FlowFilter::level);
    const double ln_picking = mean(rig.estimator.filter(), FlowFilter::ln_picking);
    REQUIRE(level > 0.1);
    rig.machine.drive(60.0, 0.8);
    REQUIRE((rig.read().faults & kWeightStuck) != 0);
    CHECK(mean(rig.estimator.filter(), FlowFilter::level) == Approx(level).margin(0.05));
    CHECK(mean(rig.estimator.filter(), FlowFilter::ln_picking) == Approx(ln_picking).margin(0.05));
}

TEST_CASE("A refused tray does not set the time") {
    Rig rig(24);
    rig.machine.stand(5.0);
    const TimeUs now_us = rig.machine.now_us();
    CHECK(rig.estimator.feed(tray_sample(now_us + 3600 * kSecondUs, now_us, 0.04F, 0.1F)) ==
          FeedResult::no_such_place);
    CHECK(rig.read().time_us == now_us);
    CHECK(rig.estimator.feed(weight_sample(now_us + 100000, 5.0F)) == FeedResult::taken);
}
