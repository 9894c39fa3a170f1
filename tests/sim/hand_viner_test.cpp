// A viner driven by hand keeps its books of peas and refuses what the plant could not do.
#include "synth/hand/hand_viner.hpp"

#include <catch2/catch.hpp>

#include "synth/hand/training_scenario.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr double kDtS = 0.1;

// A drive with what went in and came out counted beside it.
class Drive {
  public:
    explicit Drive(Scenario told = training_scenario(3, Parameters()))
        : scenario_(std::move(told)),
          gang_(scenario_),
          viner_(scenario_, scenario_.machines.front(), kDtS, gang_) {}

    void run(double for_s) {
        const double until_s = time_s_ + for_s;
        while (time_s_ < until_s - kDtS / 2) {
            gang_.update(time_s_);
            viner_.step(time_s_);
            const VinerTruth& t = viner_.truth();
            stood_kg_ += t.area_rate_m2ps * t.standing_kgpm2 * kDtS;
            CHECK(t.mass_kg >= 0.0);
            time_s_ += kDtS;
        }
    }
    // Until that is so, or ten minutes have passed.
    template <class Test>
    bool run_until(Test test) {
        for (int i = 0; i < 6000 && !test(); ++i) run(kDtS);
        return test();
    }
    void check_books() const {
        const VinerWorks& works = viner_.works();
        double tipped_kg = 0.0;
        for (const TrueLoad& load : works.loads()) tipped_kg += load.net_kg;
        const VinerTruth& t = works.truth();
        CHECK(t.lost_kg + works.in_drum_kg() + t.mass_kg + tipped_kg + works.gone_kg() ==
              Approx(stood_kg_).epsilon(1e-9));
    }
    [[nodiscard]] double time_s() const { return time_s_; }
    HandViner& viner() { return viner_; }
    const VinerTruth& truth() const { return viner_.truth(); }

  private:
    Scenario scenario_;
    Gang gang_;
    HandViner viner_;
    double time_s_ = 0.0;
    double stood_kg_ = 0.0;
};

}  // namespace

TEST_CASE("By hand, peas that stood are lost, in the drum, in the hopper, tipped or gone, and nowhere else") {
    Scenario scenario = training_scenario(3, Parameters());
    scenario.machines.front().hopper_capacity_kg = 400.0;
    const std::string& id = scenario.machines.front().id;
    scenario.faults = {{FaultKind::drum_blocked, id, 60.0, 40.0, 0.0, 0},
                       {FaultKind::hopper_leak, id, 150.0, 60.0, 0.4, 0},
                       {FaultKind::taken_by_hand, id, 120.05, 0.0, 30.0, 0}};
    Drive drive(scenario);
    CHECK(drive.viner().turn_reel() == HandRefusal::none);
    CHECK(drive.viner().go_on() == HandRefusal::none);
    drive.run(80.0);
    CHECK(drive.viner().works().in_drum_kg() > 10.0);  // behind the blockage
    drive.check_books();
    drive.run(140.0);
    CHECK(drive.viner().works().gone_kg() == Approx(30.0 + 60.0 * 0.4).margin(0.1));
    drive.check_books();
    drive.run(80.0);
    drive.viner().halt();
    drive.run(10.0);
    drive.viner().turn_reel();
    CHECK(drive.viner().tip() == HandRefusal::none);
    drive.run(20.0);
    drive.run(40.0);
    CHECK(drive.viner().works().loads().size() == 1);
    CHECK(drive.truth().mass_kg < 5.0);
    drive.check_books();
}

TEST_CASE("By hand, what comes above the brim runs over") {
    Scenario scenario = training_scenario(3, Parameters());
    scenario.machines.front().hopper_capacity_kg = 200.0;
    Drive drive(scenario);
    drive.viner().turn_reel();
    drive.viner().go_on();
    drive.run(240.0);
    CHECK(drive.truth().mass_kg == Approx(HandViner::kBrimShare * 200.0));
    CHECK(drive.viner().works().gone_kg() > 20.0);
    drive.check_books();
}

TEST_CASE("By hand, the speed goes to the one wanted as fast as the plant may") {
    Drive drive;
    for (int i = 0; i < 5; ++i) drive.viner().change_wish(1);
    CHECK(drive.viner().wanted_mps() == Approx(1.0 / 3.6));
    drive.run(0.3);
    CHECK(drive.truth().speed_mps == Approx(0.15));
    drive.run(2.0);
    CHECK(drive.truth().speed_mps == Approx(1.0 / 3.6));
    for (int i = 0; i < 60; ++i) drive.viner().change_wish(1);
    CHECK(drive.viner().wanted_mps() == Approx(9.0 / 3.6));
    drive.viner().halt();
    CHECK(drive.viner().wanted_mps() == 0.0);
    drive.viner().change_wish(-1);
    CHECK(drive.viner().wanted_mps() == 0.0);
    drive.viner().go_on();
    CHECK(drive.viner().wanted_mps() == Approx(9.0 / 3.6));
}

TEST_CASE("A tip by hand wants a standing machine, a lifted reel and peas, and nothing else meanwhile") {
    Drive drive;
    HandViner& viner = drive.viner();
    CHECK(viner.tip() == HandRefusal::tip_empty);
    viner.turn_reel();
    viner.go_on();
    drive.run(60.0);
    CHECK(viner.tip() == HandRefusal::tip_moving);
    viner.halt();
    CHECK(viner.tip() == HandRefusal::tip_moving);  // it has not come to stand yet
    drive.run(5.0);
    CHECK(drive.truth().state == WorkState::paused_in_crop);
    CHECK(viner.tip() == HandRefusal::tip_reel_on);
    viner.turn_reel();
    CHECK(viner.tip() == HandRefusal::none);
    for (const HandRefusal refused : {viner.tip(), viner.go_on(), viner.turn_reel(), viner.change_wish(1)})
        CHECK(refused == HandRefusal::tip_under_way);
    drive.run(1.0);
    CHECK(drive.truth().state == WorkState::waiting);  // the bin goes up
    drive.run(20.0);
    CHECK(drive.truth().state == WorkState::tipping);
    CHECK(drive.truth().speed_mps == 0.0);
    CHECK(viner.tip_left_s() == Approx(26.0).margin(0.2));
    drive.run(27.0);
    CHECK(viner.tip_left_s() == 0.0);
    CHECK(viner.go_on() == HandRefusal::none);
}

TEST_CASE("At the bout's end the machine waits for the reel to be lifted, turns, and cuts the next bout") {
    Drive drive;
    HandViner& viner = drive.viner();
    viner.turn_reel();
    viner.change_wish(HandViner::kMostSteps);
    REQUIRE(drive.run_until([&] { return viner.reel_must_go_up(); }));
    const double area_m2 = drive.truth().area_m2;
    drive.run(10.0);
    CHECK(drive.truth().speed_mps == 0.0);
    CHECK(drive.truth().area_m2 == area_m2);
    CHECK(drive.truth().state == WorkState::stopped);
    const Pose out = drive.truth().pose;
    CHECK(viner.turn_reel() == HandRefusal::none);
    drive.run(1.0);
    CHECK(viner.turning());
    CHECK(drive.truth().state == WorkState::turning);
    CHECK(viner.turn_reel() == HandRefusal::reel_turning);
    REQUIRE(drive.run_until([&] { return !viner.turning(); }));
    CHECK(drive.truth().speed_mps <= kTurnSpeed + 1e-9);
    CHECK(viner.turn_reel() == HandRefusal::none);
    drive.run(20.0);
    CHECK(drive.truth().state == WorkState::harvesting);
    CHECK(drive.truth().area_m2 > area_m2);
    // Back beside the first bout, the other way.
    CHECK(distance_between_m(out.place, drive.truth().pose.place) < 60.0);
    CHECK(std::abs(std::abs(out.heading_deg - drive.truth().pose.heading_deg) - 180.0) < 1.0);
    drive.check_books();
}

TEST_CASE("With the reel lifted the crop stays") {
    Drive drive;
    drive.viner().go_on();
    drive.run(30.0);
    CHECK(drive.truth().area_m2 == 0.0);
    CHECK(drive.truth().state == WorkState::turning);
    drive.run(30.0);
    CHECK(drive.truth().harvested_kg == 0.0);
    drive.viner().turn_reel();
    drive.run(30.0);
    CHECK(drive.truth().area_m2 > 50.0);
}
