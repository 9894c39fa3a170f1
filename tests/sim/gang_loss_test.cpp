// Neighbouring bouts at other speeds tell the drum's loss.
#include "analysis/gang_loss.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "geo/local_frame.hpp"
#include "synth/random.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr double kPieceM = 13.0;
constexpr double kWidthM = 3.3;
constexpr double kFeedPerPea = 5.2;

struct Work {
    double level = 0.0;         // of the true curves, against what is told
    double crop_ln_sd = 0.1;    // from piece to piece along a bout; the same in the next bout
    double weighing_sd = 0.05;  // of a piece's yield, as share
    double speed_ln_sd = 0.2;   // from bout to bout
    int bouts = 160;
};

LossCurve<Real> told_curve() {
    LossCurve<Real> curve;
    curve.picking_share = Real(0.04);
    curve.level_a = LossCurve<Real>::level_for(Real(0.05));
    return curve;
}

// Two machines take turns, bout beside bout, along 400 m.
DayResult worked(const Work& field) {
    Random random(7, "gang");
    const LocalFrame frame({52.6, 2.9});
    DayResult result;
    result.machines.resize(2);
    for (MachineResult& machine : result.machines) {
        machine.usable = true;
        machine.curve = told_curve();
        machine.feed_per_pea = Real(kFeedPerPea);
        machine.loss_book = LossBook(machine.curve.rated_feed_kgps, machine.feed_per_pea);
        machine.loss_memory.level_variance = Real(0.25);
        machine.loss_memory.ln_picking_variance = Real(0.3);
    }
    LossCurve<double> truth;
    truth.level_a = static_cast<double>(told_curve().level_a) + field.level;
    std::vector<double> crop_ln(30);
    for (double& ln : crop_ln) ln = random.normal(0.0, field.crop_ln_sd);
    for (int bout = 0; bout < field.bouts; ++bout) {
        MachineResult& machine = result.machines[static_cast<std::size_t>(bout % 2)];
        const double speed_mps = 0.85 * std::exp(random.normal(0.0, field.speed_ln_sd));
        for (std::size_t i = 0; i < crop_ln.size(); ++i) {
            const double taken_in = 0.5 * std::exp(crop_ln[i]);
            const double rate = kWidthM * speed_mps;
            const double passed = taken_in * std::exp(-truth.hazard(kFeedPerPea * taken_in * rate));
            SwathPiece piece;
            piece.unix_s = 1e9 + 600.0 * bout + 16.0 * static_cast<double>(i);
            piece.place = frame.to_lat_lon({kPieceM * static_cast<double>(i), kWidthM * bout});
            piece.area_rate_m2ps = rate;
            piece.area_m2 = kWidthM * kPieceM;
            piece.passed_kgpm2 = passed * (1.0 + random.normal(0.0, field.weighing_sd));
            machine.swath.push_back(piece);
            machine.loss_book.add(static_cast<Real>(piece.passed_kgpm2 * piece.area_m2),
                                  static_cast<Real>(piece.passed_kgpm2 * rate), Real(0));
        }
    }
    for (MachineResult& machine : result.machines) {
        machine.lost = machine.loss_book.so_far(machine.curve, machine.loss_memory.level_variance,
                                                machine.loss_memory.ln_picking_variance, Real(0));
    }
    return result;
}

Day day_of_two() {
    Day day;
    day.machines.resize(2);
    for (Machine& machine : day.machines) machine.parameters.width_m = Real(kWidthM);
    return day;
}

// What the drum would lose of all that passed with that level.
double drum_share(const MachineResult& machine, double level) {
    LossCurve<Real> curve = machine.curve;
    curve.level_a += static_cast<Real>(level);
    return static_cast<double>(
        machine.loss_book.so_far(curve, Real(0.01), Real(0.01), Real(0)).shares.drum.share);
}

}  // namespace

TEST_CASE("Bouts at other speeds bring the loss nearer to the truth, above and below what was thought") {
    for (const double level : {-0.7, 0.6}) {
        Work field;
        field.level = level;
        const DayResult result = worked(field);
        const GangLoss gang = gang_loss(day_of_two(), result);
        REQUIRE(gang.pairs > 4000);
        REQUIRE(gang.machines.size() == 2);
        for (std::size_t m = 0; m < 2; ++m) {
            INFO("level " << level << ", machine " << m);
            const double truth = drum_share(result.machines[m], level);
            const double live = static_cast<double>(result.machines[m].lost.shares.drum.share);
            const Share& back = gang.machines[m].shares.drum;
            CHECK(std::abs(static_cast<double>(back.share) - truth) < 0.5 * std::abs(live - truth));
            CHECK(static_cast<double>(back.low) < truth);
            CHECK(static_cast<double>(back.high) > truth);
            const Share& before = result.machines[m].lost.shares.drum;
            CHECK(std::log(back.high / back.low) < 0.85 * std::log(before.high / before.low));
        }
        CHECK(gang.pair_ln_sd == Approx(field.weighing_sd * std::sqrt(2.0)).epsilon(0.25));
    }
}

TEST_CASE("At one speed for all the pairs change little and the doubt stays") {
    Work field;
    field.level = 0.6;
    field.speed_ln_sd = 0.0;
    const DayResult result = worked(field);
    const GangLoss gang = gang_loss(day_of_two(), result);
    for (std::size_t m = 0; m < 2; ++m) {
        const Share& live = result.machines[m].lost.shares.drum;
        const Share& back = gang.machines[m].shares.drum;
        CHECK(static_cast<double>(back.share) == Approx(static_cast<double>(live.share)).epsilon(0.1));
        CHECK(std::log(back.high / back.low) > 0.8 * std::log(live.high / live.low));
    }
}

TEST_CASE("Without neighbours the loss stays as it was told live") {
    Work field;
    field.bouts = 1;
    const DayResult result = worked(field);
    const GangLoss gang = gang_loss(day_of_two(), result);
    CHECK(gang.pairs == 0);
    CHECK(gang.machines[0].lost_kg == result.machines[0].lost.lost_kg);
    CHECK(gang.machines[1].collected_kg == Real(0));
    CHECK(gang_loss(Day(), DayResult()).machines.empty());
}
