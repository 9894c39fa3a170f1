#include "tune/loss_prior.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace podrate;
using namespace podrate::sim;

namespace {

// A day's belief where the truth lies `off` from what was told, after a measurement of that sd.
MachineResult a_day(const std::string& id, double off, double measured_sd, double noise) {
    MachineResult machine;
    machine.id = id;
    machine.usable = true;
    const double prior_var = std::pow(static_cast<double>(machine.parameters.drum_loss_ln_sd), 2.0);
    const double variance = 1.0 / (1.0 / prior_var + 1.0 / (measured_sd * measured_sd));
    machine.loss_memory.level = static_cast<Real>(variance * (off + noise) / (measured_sd * measured_sd));
    machine.loss_memory.level_variance = static_cast<Real>(variance);
    return machine;
}

}  // namespace

TEST_CASE("What was thought beforehand is taken off a day's belief") {
    const MachineResult machine = a_day("viner_1", 0.4, 0.3, 0.0);
    const std::vector<LossReading> readings = loss_readings("Monday", machine, 0.0);
    REQUIRE(readings.size() == 1);
    CHECK(readings[0].quantity == LossQuantity::drum);
    CHECK(readings[0].ln_value ==
          Approx(std::log(static_cast<double>(machine.parameters.drum_loss_share)) + 0.4).epsilon(1e-4));
    CHECK(readings[0].ln_sd == Approx(0.3).epsilon(1e-4));
    // A day that taught nothing, and a log that was refused, have no reading.
    MachineResult same = machine;
    same.loss_memory.level_variance = machine.parameters.drum_loss_ln_sd * machine.parameters.drum_loss_ln_sd;
    CHECK(loss_readings("Monday", same, 0.0).empty());
    same = machine;
    same.usable = false;
    CHECK(loss_readings("Monday", same, 0.0).empty());
    same = machine;
    same.lost.drum_kg = Real(200);
    same.lost.ln_hazard_sd = Real(0.2);
    const std::vector<LossReading> with_sensor = loss_readings("Monday", same, 5000.0);
    REQUIRE(with_sensor.size() == 2);
    CHECK(with_sensor[1].ln_value == Approx(std::log(25.0)));
}

TEST_CASE("Many days of several machines give back how machines and days differ") {
    std::mt19937 random(11);
    std::normal_distribution<double> normal;
    constexpr int kMachines = 30;
    constexpr int kDays = 12;
    constexpr double kMean = 0.25;
    constexpr double kMachineSd = 0.3;
    constexpr double kDaySd = 0.15;
    std::vector<LossReading> readings;
    std::vector<double> truth;
    for (int m = 0; m < kMachines; ++m) {
        truth.push_back(kMean + kMachineSd * normal(random));
        for (int d = 0; d < kDays; ++d) {
            const double off = truth.back() + kDaySd * normal(random);
            const MachineResult machine = a_day("viner_" + std::to_string(m), off, 0.3, 0.3 * normal(random));
            for (const LossReading& one : loss_readings("day " + std::to_string(d), machine, 0.0))
                readings.push_back(one);
        }
    }
    const LossFit fit = fit_loss(readings);
    REQUIRE(fit.priors.size() == 1);
    const NestedEffects& effects = fit.priors[0].effects;
    const double told = static_cast<double>(Parameters().drum_loss_share);
    // Within three standard errors: 0.3/sqrt(30) of the mean, 0.3/sqrt(58) of the spread.
    CHECK(std::log(fit.priors[0].value() / told) == Approx(kMean).margin(0.17));
    CHECK(effects.machine_sd == Approx(kMachineSd).margin(0.12));
    CHECK(effects.day_sd == Approx(kDaySd).margin(0.08));
    int held = 0;
    for (std::size_t m = 0; m < truth.size(); ++m) {
        const double off = std::log(fit.priors[0].value_of(m) / told) - truth[m];
        if (std::abs(off) < 1.645 * effects.machines[m].level_sd) ++held;
    }
    CHECK(held >= 22);  // of 30, at nine in ten: fewer comes once in a hundred
    std::size_t outliers = 0;
    for (const LossReading& reading : fit.readings) outliers += reading.outlier() ? 1 : 0;
    CHECK(outliers <= 5);  // of 360
    const Parameters changed = with_prior({}, fit);
    CHECK(static_cast<double>(changed.drum_loss_share) == Approx(fit.priors[0].value()));
    CHECK(static_cast<double>(changed.drum_loss_ln_sd) == Approx(effects.new_sd()));
    CHECK(changed.picking_loss_share == Parameters().picking_loss_share);
    CHECK(first_invalid(changed) == nullptr);
}

TEST_CASE("The table names each day, each machine and one not seen yet") {
    std::vector<LossReading> readings = {
        {"Mon, wet", "viner_1", LossQuantity::drum, std::log(0.03), 0.1, 0.0},
        {"Tue", "viner_1", LossQuantity::drum, std::log(0.04), 0.1, 0.0},
        {"Tue", "viner_2", LossQuantity::picking, std::log(0.05), 0.2, 0.0}};
    const LossFit fit = fit_loss(readings);
    CHECK(fit.priors.size() == 1);
    const std::string csv = loss_prior_csv(fit);
    CHECK(csv.find("day,machine,quantity,value,low,high,residual_sd,outlier\n") == 0);
    CHECK(csv.find("\"Mon, wet\",viner_1,drum_loss_share,0.03000,0.02545,0.03536,") != std::string::npos);
    CHECK(csv.find("Tue,viner_2,picking_loss_share,0.05000,") != std::string::npos);
    CHECK(csv.find("\n,viner_1,drum_loss_share,") != std::string::npos);
    CHECK(csv.find("\n,,drum_loss_share,") != std::string::npos);
    CHECK(csv.find("picking_loss_share", csv.find("\n,,")) == std::string::npos);
}
