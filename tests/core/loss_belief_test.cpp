// What the filter believes of the loss here: its doubt must move as its mean does.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

constexpr double kRate_m2ps = 3.3 * 0.8;

double number(Real value) {
    return static_cast<double>(value);
}

// A filter that has worked at one speed for ten minutes.
FlowFilter worked_filter(double drum_loss_share) {
    Parameters parameters = test::told_right();
    parameters.drum_loss_share = static_cast<Real>(drum_loss_share);
    Rig rig(61, parameters);
    rig.machine.drum_loss_share = drum_loss_share;
    rig.machine.stand(5.0);
    rig.machine.drive(600.0, 0.8);
    return rig.estimator.filter();
}

// The same, told that the level is that, with that variance, and tied to nothing.
LossBelief belief_with(FlowFilter filter, double level, double level_variance) {
    LossMemory memory = filter.memory();
    memory.level = static_cast<Real>(level);
    memory.level_variance = static_cast<Real>(level_variance);
    memory.level_with_picking = Real(0);
    filter.begin_with(memory);
    return filter.loss_belief(Real(kRate_m2ps));
}

}  // namespace

TEST_CASE("Hazard, feed and fold of a belief are the curve's") {
    for (const double drum_loss_share : {0.02, 0.035, 0.1}) {
        const FlowFilter filter = worked_filter(drum_loss_share);
        for (const double speed_mps : {0.3, 0.8, 1.3}) {
            const auto area_rate_m2ps = static_cast<Real>(3.3 * speed_mps);
            const LossBelief belief = filter.loss_belief(area_rate_m2ps);
            const double hazard = number(filter.curve().hazard(belief.feed_kgps));
            CHECK(std::exp(number(belief.ln_hazard)) == Approx(hazard).epsilon(1e-4));
            CHECK(number(belief.fold) == Approx(hazard * number(belief.feed_kgps) / 3.5).epsilon(1e-4));
            CHECK(belief.picking_share == filter.picking_share());
            const LossBelief ahead = filter.loss_belief_ahead(area_rate_m2ps);
            CHECK(number(ahead.feed_kgps) ==
                  Approx(number(filter.taken_in_kgpm2() * filter.feed_per_pea() * area_rate_m2ps))
                      .epsilon(1e-4));
        }
    }
}

TEST_CASE("The loss believed in even crop is the plant's") {
    for (const double drum_loss_share : {0.02, 0.035, 0.08}) {
        const FlowFilter filter = worked_filter(drum_loss_share);
        Rig rig;
        rig.machine.drum_loss_share = drum_loss_share;
        const double truth = rig.machine.ground_kgpm2(0.8) / rig.machine.crop_kgpm2;
        CHECK(number(loss_shares(filter.loss_belief(Real(kRate_m2ps))).total.share) ==
              Approx(truth).epsilon(0.1));
    }
}

TEST_CASE("The doubt of the hazard grows with the level's as its mean moves with the level") {
    for (const double drum_loss_share : {0.02, 0.035, 0.1}) {
        INFO("drum loses " << drum_loss_share << " at the rated feed");
        const FlowFilter filter = worked_filter(drum_loss_share);
        const double level = number(filter.memory().level);
        constexpr double kStep = 0.02;
        const double slope = number(belief_with(filter, level + kStep, 0.1).ln_hazard -
                                    belief_with(filter, level - kStep, 0.1).ln_hazard) /
                             (2.0 * kStep);
        const double variance_a_level_variance = number(belief_with(filter, level, 0.2).ln_hazard_variance -
                                                        belief_with(filter, level, 0.1).ln_hazard_variance) /
                                                 0.1;
        CHECK(std::sqrt(variance_a_level_variance) == Approx(slope).epsilon(0.02));
    }
}

TEST_CASE("The misfit counts in the hazard's doubt as far as it tells what was taken in") {
    const auto variance_with = [](double misfit_sd, double& fold) {
        Parameters parameters;
        parameters.drum_loss_share = Real(0.1);
        parameters.loss_misfit_ln_sd = static_cast<Real>(misfit_sd);
        FlowFilter filter(parameters);
        Intake intake;
        intake.dt_s = Real(0.1);
        intake.distance_m = Real(0.08);
        intake.area_m2 = Real(0.1 * kRate_m2ps);
        filter.predict(intake);
        const LossBelief belief = filter.loss_belief(Real(kRate_m2ps));
        fold = number(belief.fold);
        return number(belief.ln_hazard_variance);
    };
    double fold = 0.0;
    const double slope_squared = (variance_with(1.0, fold) - variance_with(0.0, fold)) / 1.0;
    REQUIRE(fold > 0.1);
    CHECK(std::sqrt(slope_squared) == Approx(fold).epsilon(0.03));
}

TEST_CASE("Where nothing is cut the loss believed is that of an empty drum") {
    const FlowFilter filter = worked_filter(0.035);
    const LossBelief belief = filter.loss_belief(Real(0));
    CHECK(belief.feed_kgps == Real(0));
    CHECK(belief.fold == Real(0));
    CHECK(std::exp(number(belief.ln_hazard)) == Approx(number(filter.curve().hazard(Real(0)))).epsilon(1e-4));
    CHECK(std::isfinite(belief.ln_hazard_variance));
}
