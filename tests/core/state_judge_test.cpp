#include "podrate/work/state_judge.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

using Scene = StateJudge::Scene;

// Shows one scene for a while, at 2 Hz.
class Stage {
  public:
    StateJudge judge{Parameters{}};
    WorkState show(Scene scene, double for_s) {
        for (double t = 0.0; t < for_s; t += 0.5) {
            now_us_ += kSecondUs / 2;
            scene.time_us = now_us_;
            judge.judge(scene);
        }
        return judge.state();
    }

  private:
    TimeUs now_us_ = 1751032800 * kSecondUs;
};

Scene cutting(bool reel_known = true) {
    Scene scene;
    scene.moving = true;
    scene.reel_known = reel_known;
    scene.taking_in = true;
    scene.speed_mps = Real(0.8);
    scene.level_share = Real(0.3);
    return scene;
}

Scene driving(double speed_mps) {
    Scene scene = cutting();
    scene.taking_in = false;
    scene.speed_mps = static_cast<Real>(speed_mps);
    return scene;
}

Scene standing(double level_share, bool taking_in = false, bool reel_known = true) {
    Scene scene;
    scene.reel_known = reel_known;
    scene.taking_in = taking_in;
    scene.level_share = static_cast<Real>(level_share);
    return scene;
}

Scene tipping() {
    Scene scene = standing(0.8);
    scene.tipping = true;
    return scene;
}

}  // namespace

TEST_CASE("Each work state has the word that files use") {
    const std::string words[] = {"harvesting", "turning",    "paused_in_crop", "waiting",
                                 "tipping",    "travelling", "stopped"};
    for (int i = 0; i < kWorkStates; ++i) CHECK(name_of(static_cast<WorkState>(i)) == words[i]);
}

TEST_CASE("Moving with the reel on is harvesting") {
    Stage stage;
    CHECK(stage.judge.state() == WorkState::stopped);
    CHECK(stage.show(cutting(), 1) == WorkState::harvesting);
}

TEST_CASE("Moving with the reel off is turning until it lasts too long") {
    Stage stage;
    stage.show(cutting(), 60);
    CHECK(stage.show(driving(1.2), 95) == WorkState::turning);
    CHECK(stage.show(driving(1.2), 10) == WorkState::travelling);
    CHECK(stage.show(cutting(), 1) == WorkState::harvesting);
    CHECK(stage.show(driving(1.2), 5) == WorkState::turning);
}

TEST_CASE("Faster than anybody harvests with the reel off is travelling at once") {
    Stage stage;
    stage.show(cutting(), 60);
    CHECK(stage.show(driving(4.0), 1) == WorkState::travelling);
    // Slowing down at the end of the way is still the same travel.
    CHECK(stage.show(driving(1.0), 20) == WorkState::travelling);
}

TEST_CASE("Standing with the reel on is a pause in crop") {
    Stage stage;
    stage.show(cutting(), 60);
    CHECK(stage.show(standing(0.3, true), 300) == WorkState::paused_in_crop);
}

TEST_CASE("Standing in crop without a reel signal is a pause for three minutes and then a stop") {
    Stage stage;
    stage.show(cutting(false), 60);
    CHECK(stage.show(standing(0.3, true, false), 170) == WorkState::paused_in_crop);
    CHECK(stage.show(standing(0.3, true, false), 20) == WorkState::stopped);
}

TEST_CASE("Standing with a full hopper is waiting until it lasts too long") {
    Stage stage;
    stage.show(cutting(), 60);
    stage.show(driving(1.0), 10);
    // The level that counts is that at which the machine came to stand.
    CHECK(stage.show(standing(0.8), 1400) == WorkState::waiting);
    CHECK(stage.show(standing(0.8), 200) == WorkState::stopped);
}

TEST_CASE("Standing with a hopper half empty and the reel off is a stop") {
    Stage stage;
    stage.show(cutting(), 60);
    stage.show(driving(1.0), 10);
    CHECK(stage.show(standing(0.3), 10) == WorkState::stopped);
}

TEST_CASE("Tipping lasts until the hopper is down again and is no waiting after it") {
    Stage stage;
    stage.show(cutting(), 60);
    stage.show(driving(1.0), 5);
    CHECK(stage.show(standing(0.9), 30) == WorkState::waiting);
    CHECK(stage.show(tipping(), 30) == WorkState::tipping);
    CHECK(stage.show(standing(0.0), 11) == WorkState::tipping);
    CHECK(stage.show(standing(0.0), 5) == WorkState::stopped);
    CHECK(stage.show(cutting(), 1) == WorkState::harvesting);
}

TEST_CASE("Moving off ends the tip") {
    Stage stage;
    stage.show(cutting(), 60);
    stage.show(tipping(), 30);
    CHECK(stage.show(driving(1.0), 1) == WorkState::turning);
}

TEST_CASE("Without a reel signal a turn shows in the heading") {
    IntakeJudge intake{Parameters{}};
    CHECK_FALSE(intake.reel_known());
    TimeUs t = 0;
    for (int i = 0; i < 30; ++i) intake.set_heading(t += kSecondUs, Real(358) + static_cast<Real>(i % 4));
    CHECK(intake.taking_in(Real(0.8)));
    CHECK_FALSE(intake.taking_in(Real(4)));
    for (int i = 0; i < 15; ++i) intake.set_heading(t += kSecondUs, Real(12) * static_cast<Real>(i));
    CHECK_FALSE(intake.taking_in(Real(0.8)));
    for (int i = 0; i < 20; ++i) intake.set_heading(t += kSecondUs, Real(180));
    CHECK(intake.taking_in(Real(0.8)));
}

TEST_CASE("A heading through north is no turn") {
    IntakeJudge intake{Parameters{}};
    TimeUs t = 0;
    for (int i = 0; i < 60; ++i) {
        intake.set_heading(t += kSecondUs, i % 2 == 0 ? Real(359.5) : Real(0.5));
        REQUIRE(intake.taking_in(Real(0.8)));
    }
}

TEST_CASE("The reel goes before what speed and heading suggest") {
    IntakeJudge intake{Parameters{}};
    intake.set_reel(true);
    CHECK(intake.taking_in(Real(9)));
    intake.set_reel(false);
    CHECK_FALSE(intake.taking_in(Real(0.8)));
}

TEST_CASE("The estimator reaches each state in its turn") {
    Rig rig(1);
    rig.machine.stand(30.0);
    CHECK(rig.read().state == WorkState::stopped);
    rig.machine.drive(1200.0, 0.8);
    CHECK(rig.read().state == WorkState::harvesting);
    rig.machine.drive(20.0, 1.2, false);
    CHECK(rig.read().state == WorkState::turning);
    rig.machine.drive(20.0, 0.8);
    rig.machine.drive(30.0, 0.0, true);
    CHECK(rig.read().state == WorkState::paused_in_crop);
    rig.machine.drive(20.0, 1.2, false);
    rig.machine.stand(60.0);
    CHECK(rig.read().state == WorkState::waiting);
    rig.machine.tip();
    CHECK(rig.read().state == WorkState::tipping);
    rig.machine.stand(20.0);
    CHECK(rig.read().state == WorkState::stopped);
    rig.machine.drive(30.0, 4.5, false);
    CHECK(rig.read().state == WorkState::travelling);
}

TEST_CASE("Without a reel the estimator tells harvesting from travel and standing") {
    Rig rig(2);
    rig.machine.no_reel = true;
    rig.machine.stand(30.0);
    CHECK(rig.read().state == WorkState::stopped);
    rig.machine.drive(300.0, 0.8);
    CHECK(rig.read().state == WorkState::harvesting);
    CHECK(static_cast<double>(rig.read().area_m2) == Approx(rig.truth().area_m2).epsilon(0.005));
    rig.machine.drive(30.0, 4.5, false);
    CHECK(rig.read().state == WorkState::travelling);
    CHECK(static_cast<double>(rig.read().area_m2) == Approx(rig.truth().area_m2).epsilon(0.005));
}
