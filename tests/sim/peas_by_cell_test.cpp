// Looking back at a made-up quarter of a minute, against the same model solved at once as one Gaussian.
#include "maps/peas_by_cell.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>

#include "podrate/choices.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr int kStates = BeliefStep::kStates;
constexpr int kSteps = 8;
constexpr double kDtS = 2.0;
constexpr double kLagS = 8.0;
constexpr double kCv = 0.2;
constexpr double kReadingKg2 = 2.0;
constexpr TimeUs kStartUs = 1751428800 * kSecondUs;
const double kAreasM2[kSteps] = {5.5, 5.6, 5.2, 0.0, 0.0, 5.8, 5.4, 5.5};
const double kReadingsKg[kSteps] = {2.0, 5.5, 6.0, 10.5, 11.0, 11.5, 15.0, 17.0};

using State = Eigen::Matrix<double, kStates, 1>;
using Spread = Eigen::Matrix<double, kStates, kStates>;

struct Step {
    Spread f;
    Spread q;  // without the patches
    State predicted;
    State before;  // filtered
    double taken_kg;
    double patch_kg2;  // of what is taken in, beside the crop
};

State enters() {
    const double gone = 1.0 - std::exp(-kDtS / kLagS);
    return {kDtS - kLagS * gone, gone, 0.0, 0.0};
}

BeliefStep told(int step, const State& mean, const Spread& spread) {
    BeliefStep told;
    told.time_us = kStartUs + step * static_cast<TimeUs>(kDtS * 1e6);
    std::size_t at = 0;
    for (int i = 0; i < kStates; ++i) {
        told.mean[std::size_t(i)] = float(mean(i));
        for (int j = 0; j <= i; ++j) told.covariance[at++] = float(spread(i, j));
    }
    told.lag_s = float(kLagS);
    told.crop_cv = float(kCv);
    return told;
}

// A filter that runs forward, as the core's: fills `machine`.
std::vector<Step> run_forward(MachineResult& machine) {
    const Parameters& p = machine.parameters;
    State mean(0.0, 0.3, std::log(0.45), std::log(0.5));
    Spread spread = Eigen::Vector4d(2.0, 0.05, 0.04, 0.02).asDiagonal();
    spread(2, 3) = spread(3, 2) = 0.015;
    std::vector<Step> steps;
    machine.beliefs.push_back(told(0, mean, spread));
    for (int k = 0; k < kSteps; ++k) {
        const double gone = 1.0 - std::exp(-kDtS / kLagS);
        const double far_m = kAreasM2[k] / double(p.width_m);
        const double like = std::exp(-far_m / double(p.crop_length_m));
        Step step;
        step.before = mean;
        step.taken_kg = kAreasM2[k] * std::exp(mean(2));
        const double inflow = step.taken_kg / kDtS;
        step.patch_kg2 = far_m > 0.0 ? step.taken_kg * step.taken_kg * double(p.crop_patch_m) / far_m : 0.0;
        step.f << 1.0, kLagS * gone, inflow * (kDtS - kLagS * gone), 0.0,  //
            0.0, 1.0 - gone, inflow * gone, 0.0,                           //
            0.0, 0.0, like, 1.0 - like,                                    //
            0.0, 0.0, 0.0, 1.0;
        step.predicted = {mean(0) + inflow * kDtS + (mean(1) - inflow) * kLagS * gone,
                          (1.0 - gone) * mean(1) + gone * inflow, like * mean(2) + (1.0 - like) * mean(3),
                          mean(3)};
        const double unexplained = double(p.flow_noise_share) * std::max(mean(1), inflow);
        step.q = Eigen::Vector4d(double(choices::flow::kMassNoise) * kDtS,
                                 (unexplained * unexplained + double(choices::flow::kFlowNoise)) * kDtS,
                                 kCv * kCv * (1.0 - like * like),
                                 double(p.crop_mean_drift) * double(p.crop_mean_drift) * far_m)
                     .asDiagonal();
        const Spread ahead = step.f * spread * step.f.transpose() + step.q +
                             step.patch_kg2 / (kDtS * kDtS) * enters() * enters().transpose();
        const State gain = ahead.col(0) / (ahead(0, 0) + kReadingKg2);
        mean = step.predicted + gain * (kReadingsKg[k] - step.predicted(0));
        spread = ahead - gain * ahead.row(0);
        steps.push_back(step);
        machine.beliefs.push_back(told(k + 1, mean, spread));
    }
    return steps;
}

// What is cut over all steps, and its covariance, given all readings: unknown are the first state, each
// step's noise and each step's patches.
void solve_at_once(const std::vector<Step>& steps, Eigen::VectorXd& kg, Eigen::MatrixXd& covariance) {
    constexpr int kUnknown = kStates + kSteps * (kStates + 1);
    Eigen::MatrixXd prior = Eigen::MatrixXd::Zero(kUnknown, kUnknown);
    Spread first = Eigen::Vector4d(2.0, 0.05, 0.04, 0.02).asDiagonal();
    first(2, 3) = first(3, 2) = 0.015;
    prior.topLeftCorner<kStates, kStates>() = first;
    // Each state and each figure as a mean and a row of weights on the unknowns.
    Eigen::Matrix<double, kStates, Eigen::Dynamic> on = Eigen::MatrixXd::Zero(kStates, kUnknown);
    on.leftCols<kStates>().setIdentity();
    State mean = steps.front().before;
    Eigen::MatrixXd seen(kSteps, kUnknown);
    Eigen::MatrixXd cut = Eigen::MatrixXd::Zero(kSteps, kUnknown);
    Eigen::VectorXd residual(kSteps);
    kg.resize(kSteps);
    for (int k = 0; k < kSteps; ++k) {
        const Step& step = steps[std::size_t(k)];
        const int noise = kStates + k * (kStates + 1);
        prior.block<kStates, kStates>(noise, noise) = step.q;
        prior(noise + kStates, noise + kStates) = step.patch_kg2;
        kg(k) = step.taken_kg * (1.0 + mean(2) - step.before(2));
        cut.row(k) = step.taken_kg * on.row(2);
        cut(k, noise + kStates) += 1.0;
        mean = step.predicted + step.f * (mean - step.before);
        on = (step.f * on).eval();
        on.block<kStates, kStates>(0, noise) += Spread::Identity();
        on.col(noise + kStates) += enters() / kDtS;
        seen.row(k) = on.row(0);
        residual(k) = kReadingsKg[k] - mean(0);
    }
    const Eigen::MatrixXd readings =
        seen * prior * seen.transpose() + kReadingKg2 * Eigen::MatrixXd::Identity(kSteps, kSteps);
    const Eigen::MatrixXd gain = prior * seen.transpose() * readings.inverse();
    kg += cut * gain * residual;
    covariance = cut * (prior - gain * seen * prior) * cut.transpose();
}

MachineResult made_machine() {
    MachineResult machine;
    machine.usable = true;
    machine.parameters.weight_gain_sd_share = Real(0);
    machine.parameters.crop_cv = Real(kCv);
    for (int k = 0; k <= kSteps; ++k) {
        WorkPoint point;
        point.time_us = kStartUs + k * static_cast<TimeUs>(kDtS * 1e6);
        if (k > 0) point.area_m2 = float(kAreasM2[k - 1]);
        machine.work.push_back(point);
    }
    return machine;
}

// A piece of swath for each step, each in one cell.
SwathQuads swath_of(const int (&cells)[kSteps]) {
    SwathQuads swath;
    double cut_m2 = 0.0;
    for (int k = 0; k < kSteps; ++k) {
        SwathQuad quad;
        quad.from_m2 = cut_m2;
        quad.to_m2 = cut_m2 += kAreasM2[k];
        quad.first_share = swath.shares.size();
        quad.shares = 1;
        if (kAreasM2[k] <= 0.0) continue;
        swath.quads.push_back(quad);
        swath.shares.push_back({std::size_t(cells[k]), 1.0});
    }
    return swath;
}

}  // namespace

TEST_CASE("Peas by cell and their doubt are those of the whole model solved at once") {
    MachineResult machine = made_machine();
    const std::vector<Step> steps = run_forward(machine);
    Eigen::VectorXd kg;
    Eigen::MatrixXd covariance;
    solve_at_once(steps, kg, covariance);
    // Cells that are entered, left and entered again.
    const int cells[kSteps] = {0, 0, 1, 1, 1, 1, 0, 2};
    const PeasByCell peas = peas_by_cell(machine, swath_of(cells));
    REQUIRE(peas.cells.size() == 3);
    for (int cell = 0; cell < 3; ++cell) {
        INFO("cell " << cell);
        Eigen::VectorXd in = Eigen::VectorXd::Zero(kSteps);
        for (int k = 0; k < kSteps; ++k) in(k) = cells[k] == cell ? 1.0 : 0.0;
        const CellPeas& told_of = peas.cells[std::size_t(cell)];
        CHECK(told_of.kg == Approx(in.dot(kg)).epsilon(1e-4));
        CHECK(told_of.variance_kg2 == Approx(in.dot(covariance * in)).epsilon(1e-3));
    }
    // Errors along a swath hang together: far from what adding them up as if they did not would give.
    const double apart = (covariance(0, 0) + covariance(1, 1) + covariance(6, 6));
    CHECK(std::abs(peas.cells[0].variance_kg2 / apart - 1.0) > 0.1);
}

TEST_CASE("A step that two cells share says less of each than of both") {
    MachineResult machine = made_machine();
    (void)run_forward(machine);
    const int cells[kSteps] = {0, 0, 0, 0, 0, 0, 0, 0};
    SwathQuads swath = swath_of(cells);
    const PeasByCell whole = peas_by_cell(machine, swath);
    std::vector<CellShare> shares;
    for (std::size_t i = 0; i < swath.quads.size(); ++i) {
        swath.quads[i].first_share = shares.size();
        swath.quads[i].shares = 2;
        shares.push_back({0, 0.5});
        shares.push_back({1, 0.5});
    }
    swath.shares = shares;
    const PeasByCell halves = peas_by_cell(machine, swath);
    REQUIRE(halves.cells.size() == 2);
    CHECK(halves.cells[0].kg == Approx(0.5 * whole.cells[0].kg));
    CHECK(halves.cells[1].kg == Approx(0.5 * whole.cells[0].kg));
    CHECK(halves.cells[0].variance_kg2 > 1.1 * 0.25 * whole.cells[0].variance_kg2);
}

TEST_CASE("A crop that is learnt to be more uneven makes cells less sure, up to measured plots") {
    MachineResult machine = made_machine();
    (void)run_forward(machine);
    const int cells[kSteps] = {0, 0, 0, 0, 1, 1, 1, 1};
    const double told_kg2 = peas_by_cell(machine, swath_of(cells)).cells[0].variance_kg2;
    machine.beliefs.back().crop_cv = float(1.2 * kCv);
    CHECK(peas_by_cell(machine, swath_of(cells)).cells[0].variance_kg2 ==
          Approx(1.2 * told_kg2).epsilon(0.02));
    machine.beliefs.back().crop_cv = float(9.0 * kCv);
    CHECK(peas_by_cell(machine, swath_of(cells)).cells[0].variance_kg2 ==
          Approx(std::sqrt(0.12 / double(machine.parameters.crop_patch_m)) * told_kg2).epsilon(0.02));
}

TEST_CASE("Peas whose swath has no place stay unplaced, and a refused log has none") {
    MachineResult machine = made_machine();
    (void)run_forward(machine);
    machine.last.harvested_kg = Real(17);
    machine.lost.lost_kg = Real(2);
    const PeasByCell peas = peas_by_cell(machine, SwathQuads{});
    CHECK(peas.cells.empty());
    CHECK(peas.unplaced_kg == Approx(17.0));
    CHECK(peas.unplaced_lost_kg == Approx(2.0));
    machine.usable = false;
    CHECK(peas_by_cell(machine, SwathQuads{}).unplaced_kg == 0.0);
}

TEST_CASE("A tip between two steps carries no mass back, but flow and crop") {
    MachineResult machine = made_machine();
    (void)run_forward(machine);
    const int cells[kSteps] = {0, 0, 0, 0, 0, 0, 0, 0};
    const double before_kg = peas_by_cell(machine, swath_of(cells)).cells[0].kg;
    for (std::size_t k = 5; k < machine.beliefs.size(); ++k) machine.beliefs[k].mean[0] -= 900.0F;
    machine.beliefs[5].mass_retold = true;
    const double after_kg = peas_by_cell(machine, swath_of(cells)).cells[0].kg;
    CHECK(after_kg == Approx(before_kg).epsilon(0.05));
    // A fall that nobody told of is seen by itself.
    machine.beliefs[5].mass_retold = false;
    CHECK(peas_by_cell(machine, swath_of(cells)).cells[0].kg == Approx(after_kg).epsilon(1e-6));
}
