// A loss sensor behind a whole machine: how its hits move the loss told.
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

constexpr double kSpeed_mps = 0.8;
constexpr TimeUs kStepUs = 100000;
constexpr int kDelaySteps = 40;  // hits_delay_s is 4 by default

// A machine whose sensor counts what the drum lost of the crop cut four seconds ago.
class Heard {
  public:
    Heard(std::uint64_t seed, double hits_per_kg) : rig(seed), hits_per_kg_(hits_per_kg) {
        rig.machine.stand(5.0);
    }
    void drive(double for_s) {
        for (int i = 0; i < static_cast<int>(for_s * 10.0); ++i) {
            lost_kg_.push_back(0.1 * drum_loss_kgps());
            const std::size_t count = lost_kg_.size();
            if (count > kDelaySteps) {
                const double hits = hits_per_kg_ * lost_kg_[count - 1 - kDelaySteps];
                rig.estimator.feed(hits_sample(rig.machine.now_us() + kStepUs, static_cast<float>(hits)));
            }
            rig.machine.drive(0.1, kSpeed_mps);
        }
    }
    // Share of the peas standing that the drum loses now.
    [[nodiscard]] double drum_loss_share() const {
        return drum_loss_kgps() / (rig.machine.crop_kgpm2 * 3.3 * kSpeed_mps);
    }
    Rig rig;

  private:
    [[nodiscard]] double drum_loss_kgps() const {
        const double left_by_reel = rig.machine.picking_loss_share * rig.machine.crop_kgpm2;
        return (rig.machine.ground_kgpm2(kSpeed_mps) - left_by_reel) * 3.3 * kSpeed_mps;
    }
    double hits_per_kg_;
    std::vector<double> lost_kg_;
};

double told(const Heard& heard) {
    return static_cast<double>(heard.rig.read().drum_loss_share);
}

}  // namespace

TEST_CASE("A stretch where the drum loses half as much again is told, and left again") {
    Heard heard(71, 2000.0);
    heard.drive(900.0);
    REQUIRE(heard.rig.read().loss_sensor);
    const double usual = told(heard);
    CHECK(usual == Approx(heard.drum_loss_share()).epsilon(0.15));
    heard.rig.machine.drum_loss_share = 1.5 * 0.035;
    heard.drive(120.0);
    CHECK(heard.drum_loss_share() == Approx(1.5 * 0.0234).epsilon(0.05));
    CHECK(told(heard) > 1.25 * usual);
    CHECK(told(heard) < 1.6 * usual);
    heard.rig.machine.drum_loss_share = 0.035;
    heard.drive(180.0);
    CHECK(told(heard) == Approx(usual).epsilon(0.1));
}

TEST_CASE("How many hits a kg brings makes no difference to the loss told") {
    std::vector<double> losses;
    for (const double hits_per_kg : {1000.0, 20000.0}) {
        Heard heard(72, hits_per_kg);
        heard.drive(600.0);
        heard.rig.machine.drum_loss_share = 1.3 * 0.035;
        heard.drive(60.0);
        losses.push_back(told(heard));
    }
    CHECK(losses[1] == Approx(losses[0]).epsilon(0.03));
}

TEST_CASE("Without hits there is no loss sensor") {
    Rig rig(73);
    rig.machine.stand(5.0);
    rig.machine.drive(300.0, kSpeed_mps);
    CHECK_FALSE(rig.read().loss_sensor);
}

TEST_CASE("A sensor is heard whatever its pace, and whether it speaks before the weight or after") {
    for (const int every_steps : {1, 2, 5, 10}) {
        for (const TimeUs after_us : {TimeUs(0), TimeUs(30000)}) {
            INFO("every " << 0.1 * every_steps << " s, " << after_us << " us after a weight");
            Rig rig(74);
            rig.machine.stand(5.0);
            for (int i = 0; i < 6000 / every_steps; ++i) {
                rig.machine.drive(0.1 * every_steps, kSpeed_mps);
                rig.estimator.feed(
                    hits_sample(rig.machine.now_us() + after_us, static_cast<float>(2 * every_steps)));
            }
            CHECK(rig.read().loss_sensor);
        }
    }
}

TEST_CASE("A sensor that falls silent for a while is not taken for a drum that loses nothing") {
    Heard heard(75, 2000.0);
    heard.drive(600.0);
    const double usual = told(heard);
    heard.rig.machine.drive(20.0, kSpeed_mps);
    for (int i = 0; i < 10; ++i) {
        heard.drive(1.0);
        CHECK(told(heard) == Approx(usual).epsilon(0.1));
    }
}
