// What one day leaves to the next.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/least_eigenvalue.hpp"
#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

constexpr double kPerDay = 0.02;  // variance of the ln a day
constexpr TimeUs kDayUs = 86400 * kSecondUs;
constexpr TimeUs kEveningUs = 1751032800 * kSecondUs;

LossMemory known_well() {
    LossMemory memory;
    memory.time_us = kEveningUs;
    memory.level = Real(0.5);
    memory.level_variance = Real(0.01);
    memory.ln_picking = Real(-0.3);
    memory.ln_picking_variance = Real(0.02);
    memory.level_with_picking = Real(-0.005);
    return memory;
}

LossMemory after(double days, const LossMemory& memory) {
    Estimator estimator{Parameters{}};
    estimator.begin_with(memory, memory.time_us + static_cast<TimeUs>(days * static_cast<double>(kDayUs)));
    return estimator.loss_memory();
}

void check_valid(const FlowFilter& filter) {
    CHECK(filter.belief().mean.allFinite());
    const auto& covariance = filter.belief().covariance;
    CHECK((covariance == covariance.transpose()));
    CHECK(test::least_eigenvalue(covariance) >= 0.0);
}

}  // namespace

TEST_CASE("A memory that has not aged is carried over as it was") {
    const LossMemory memory = after(0.0, known_well());
    CHECK(memory.level == Real(0.5));
    CHECK(memory.level_variance == Real(0.01));
    CHECK(memory.ln_picking == Real(-0.3));
    CHECK(memory.ln_picking_variance == Real(0.02));
    CHECK(memory.level_with_picking == Real(-0.005));
}

TEST_CASE("A memory grows vaguer by the day and never vaguer than nothing") {
    double last = 0.0;
    for (const double days : {0.5, 1.0, 3.0, 10.0}) {
        INFO(days << " days");
        const LossMemory memory = after(days, known_well());
        CHECK(memory.level == Real(0.5));
        CHECK(static_cast<double>(memory.level_variance) == Approx(0.01 + kPerDay * days).epsilon(1e-4));
        CHECK(static_cast<double>(memory.ln_picking_variance) == Approx(0.02 + kPerDay * days).epsilon(1e-4));
        CHECK(static_cast<double>(memory.level_variance) > last);
        last = static_cast<double>(memory.level_variance);
    }
    const LossMemory old = after(365.0, known_well());
    const LossMemory nothing = Estimator{Parameters{}}.loss_memory();
    const auto told_sd = static_cast<double>(Parameters{}.drum_loss_ln_sd);
    CHECK(static_cast<double>(nothing.level_variance) == Approx(told_sd * told_sd));
    CHECK(old.level_variance == nothing.level_variance);
    CHECK(old.ln_picking_variance == nothing.ln_picking_variance);
}

TEST_CASE("A memory from the future has not aged") {
    CHECK(after(-3.0, known_well()).level_variance == Real(0.01));
}

TEST_CASE("What was told of yesterday holds through the first weight and the day's work") {
    Rig rig(31);
    LossMemory memory = known_well();
    memory.time_us = rig.machine.now_us();
    rig.estimator.begin_with(memory, rig.machine.now_us());
    rig.machine.stand(5.0);
    CHECK(rig.estimator.loss_memory().level == Approx(0.5).margin(0.001));
    CHECK(rig.estimator.loss_memory().ln_picking == Approx(-0.3).margin(0.001));
    CHECK(rig.estimator.loss_memory().level_variance == Approx(0.01).epsilon(0.01));
    CHECK(rig.estimator.loss_memory().level_with_picking == Approx(-0.005).epsilon(0.01));
    rig.machine.drum_loss_share = 1.0 - std::exp(std::log(1.0 - 0.035) * std::exp(0.5));
    rig.machine.picking_loss_share = 0.04 * std::exp(-0.3);
    rig.machine.drive(600.0, 0.8);
    const double truth = rig.machine.ground_kgpm2(0.8) / rig.machine.crop_kgpm2;
    const Estimate e = rig.read();
    CHECK(static_cast<double>(e.loss_share) == Approx(truth).epsilon(0.12));
    CHECK(e.loss_low < truth);
    CHECK(e.loss_high > truth);
    CHECK(e.loss_high - e.loss_low < Real(0.06));
}

TEST_CASE("What a day has learnt from trays reaches the next") {
    Rig first(32);
    first.machine.drum_loss_share = 0.07;
    first.machine.stand(5.0);
    for (int round = 0; round < 3; ++round) {
        for (const double speed_mps : {0.5, 0.8, 1.1}) {
            first.machine.drive(150.0, speed_mps);
            const TimeUs about_us = first.machine.now_us() - 60 * kSecondUs;
            first.estimator.feed(tray_sample(first.machine.now_us(), about_us,
                                             static_cast<float>(first.machine.ground_kgpm2(speed_mps)),
                                             0.1F));
        }
    }
    const LossMemory learnt = first.estimator.loss_memory();
    CHECK(learnt.time_us == first.machine.now_us());
    REQUIRE(learnt.level > Real(0.3));
    REQUIRE(learnt.level_variance < Real(0.15));
    Estimator second{Parameters{}};
    second.begin_with(learnt, learnt.time_us + kDayUs / 2);
    const LossMemory taken_over = second.loss_memory();
    CHECK(taken_over.level == learnt.level);
    CHECK(taken_over.ln_picking == learnt.ln_picking);
    CHECK(taken_over.level_with_picking == learnt.level_with_picking);
    CHECK(static_cast<double>(taken_over.level_variance) ==
          Approx(static_cast<double>(learnt.level_variance) + 0.5 * kPerDay).epsilon(1e-3));
}

TEST_CASE("A damaged memory leaves a valid filter") {
    for (const double variance : {0.0, 0.01, 1e30}) {
        for (const double covariance : {-1e30, -1.0, 0.0, 1.0, 1e30}) {
            for (const double value : {-1e6, 0.0, 1e6}) {
                INFO("variance " << variance << ", covariance " << covariance << ", value " << value);
                LossMemory memory = known_well();
                memory.level = static_cast<Real>(value);
                memory.ln_picking = static_cast<Real>(-value);
                memory.level_variance = static_cast<Real>(variance);
                memory.ln_picking_variance = static_cast<Real>(variance);
                memory.level_with_picking = static_cast<Real>(covariance);
                Estimator estimator{Parameters{}};
                estimator.begin_with(memory, memory.time_us);
                check_valid(estimator.filter());
                CHECK(std::abs(estimator.loss_memory().level) <= Real(2.5));
                CHECK(std::abs(estimator.loss_memory().ln_picking) <= Real(3));
            }
        }
    }
}

TEST_CASE("A tie as tight as its variances allow is loosened a little") {
    LossMemory memory = known_well();
    memory.level_variance = Real(0.04);
    memory.ln_picking_variance = Real(0.09);
    memory.level_with_picking = Real(-0.2 * 0.3);
    const LossMemory taken_over = after(0.0, memory);
    CHECK(static_cast<double>(taken_over.level_with_picking) == Approx(-0.95 * 0.06).epsilon(1e-4));
}

TEST_CASE("A memory whose variance is negative leaves a valid filter") {
    for (const bool of_picking : {false, true}) {
        LossMemory memory = known_well();
        (of_picking ? memory.ln_picking_variance : memory.level_variance) = Real(-1);
        Estimator estimator{Parameters{}};
        estimator.begin_with(memory, memory.time_us);
        check_valid(estimator.filter());
    }
}
