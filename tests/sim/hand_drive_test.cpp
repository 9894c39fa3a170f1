// A drive by hand is a run of the core: what it told is what a replay of the log it leaves tells.
#include "synth/hand/hand_drive.hpp"

#include <catch2/catch.hpp>
#include <cstring>
#include <map>

#include "replay/machine_replay.hpp"
#include "support/temp_folder.hpp"
#include "synth/hand/drive_score.hpp"
#include "synth/hand/training_scenario.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::TempFolder;

namespace {

enum HandFaultIndex : std::size_t {
    kScaleStuck,
    kCellStuck,
    kCellTorn,
    kWeightGone,
    kSpeedGone,
    kTiltGone,
    kDrumBlocked,
    kLeaking,
    kNothingComes,
    kTipInPart
};

void run(HandDrive& drive, double for_s) {
    for (long i = std::lround(for_s * kStepsPerSecond); i > 0; --i) drive.step();
}

void cut(HandDrive& drive, double for_s) {
    drive.viner().turn_reel();
    drive.viner().go_on();
    run(drive, for_s);
}

void tip(HandDrive& drive) {
    drive.viner().halt();
    run(drive, 20.0);
    drive.viner().turn_reel();
    REQUIRE(drive.viner().tip() == HandRefusal::none);
    run(drive, 60.0);
}

// What the core told after each row, to the last bit.
using Tellings = std::map<TimeUs, std::string>;

std::string bits_of(const Estimate& e) {
    std::string bits;
    const auto add = [&bits](const auto& value) {
        bits.append(reinterpret_cast<const char*>(&value), sizeof value);
    };
    add(e.time_us);
    add(e.state);
    add(e.faults);
    add(e.alarms);
    for (const Real value :
         {e.mass_kg, e.mass_sd_kg, e.flow_kgps, e.flow_sd_kgps, e.yield_kgpm2, e.yield_sd_kgpm2, e.loss_share,
          e.loss_low, e.loss_high, e.drum_loss_share, e.picking_loss_share, e.loss_learnt, e.speed_mps,
          e.harvested_kg, e.harvested_sd_kg, e.area_m2, e.load_kg, e.distance_to_full_m})
        add(value);
    return bits;
}

class Replayed : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override {
        tellings[row.time_us] = bits_of(estimate);
    }
    Tellings tellings;
};

void step_and_note(HandDrive& drive, double for_s, Tellings& told) {
    for (long i = std::lround(for_s * kStepsPerSecond); i > 0; --i) {
        drive.step();
        told[drive.row_us()] = bits_of(drive.estimator().read());
    }
}

std::unique_ptr<HandDrive> drive_of(std::uint64_t seed = 5, const Parameters& parameters = Parameters()) {
    return std::make_unique<HandDrive>(training_scenario(seed, parameters), parameters);
}

bool alarms(const HandDrive& drive, AlarmId alarm) {
    return (drive.estimator().read().alarms & (1U << static_cast<unsigned>(alarm))) != 0;
}

}  // namespace

TEST_CASE("The same orders at the same steps leave the same log, others another") {
    const auto driven = [](std::uint64_t seed, double spoilt_s) {
        const auto drive = drive_of(seed);
        cut(*drive, 20.0);
        drive->turn_fault(kCellStuck);
        run(*drive, spoilt_s);
        drive->turn_fault(kCellStuck);
        run(*drive, 25.0 - spoilt_s);
        return drive->log_text();
    };
    const std::string log = driven(5, 10.0);
    CHECK(driven(5, 10.0) == log);
    CHECK(driven(5, 10.1) != log);
    CHECK(driven(6, 10.0) != log);
}

TEST_CASE("A replay of the saved day tells what was told live, to the last bit of each row") {
    Parameters parameters;
    parameters.hopper_capacity_kg = Real(400);
    parameters.hopper_nearly_full_share = Real(0.613);
    parameters.drum_lag_s = Real(7.5);
    parameters.wanted_rate_kgps = Real(1.1);
    const auto drive = drive_of(9, parameters);
    Tellings told;
    told[drive->row_us()] = bits_of(drive->estimator().read());
    drive->viner().turn_reel();
    drive->viner().go_on();
    step_and_note(*drive, 60.0, told);
    for (const std::size_t fault : {kCellStuck, kTiltGone, kNothingComes, kDrumBlocked}) {
        drive->turn_fault(fault);
        step_and_note(*drive, 15.0, told);
        drive->turn_fault(fault);
        step_and_note(*drive, 15.0, told);
    }
    drive->viner().halt();
    step_and_note(*drive, 20.0, told);
    drive->viner().turn_reel();
    REQUIRE(drive->viner().tip() == HandRefusal::none);
    step_and_note(*drive, 60.0, told);
    const TempFolder folder;
    const auto where = free_day_folder(folder.path());
    drive->save(where);
    CHECK(free_day_folder(folder.path()) != where);
    const Day day = read_day(where);
    REQUIRE(day.machines.size() == 1);
    CHECK(std::memcmp(&day.machines[0].parameters, &drive->parameters(), sizeof(Parameters)) == 0);
    Replayed replayed;
    const MachineResult result = replay_machine(day.machines[0], {&replayed}, nullptr);
    REQUIRE(result.usable);
    CHECK(result.loads.size() == 1);
    CHECK(result.rows_bad == 0);
    CHECK(replayed.tellings.size() > 2000);
    CHECK(replayed.tellings.size() == told.size());
    std::size_t other = 0;
    for (const auto& [time_us, bits] : replayed.tellings) {
        const auto live = told.find(time_us);
        if (live == told.end() || live->second != bits) ++other;
    }
    CHECK(other == 0);
    CHECK_FALSE(result.alarms.empty());
}

TEST_CASE("Each fault brought about by hand shows in what the core tells") {
    const auto drive = drive_of();
    cut(*drive, 90.0);
    const auto faults = [&] { return drive->estimator().read().faults; };
    REQUIRE(faults() == 0);
    SECTION("the scale stuck") {
        drive->turn_fault(kScaleStuck);
        run(*drive, 40.0);
        CHECK((faults() & kWeightStuck) != 0);
        CHECK(alarms(*drive, AlarmId::weight_fault));
    }
    SECTION("one cell stuck, and mended") {
        drive->turn_fault(kCellStuck);
        CHECK(drive->fault_on(kCellStuck));
        run(*drive, 30.0);
        CHECK((faults() & kWeightStuck) != 0);
        drive->turn_fault(kCellStuck);
        CHECK_FALSE(drive->fault_on(kCellStuck));
        run(*drive, 60.0);
        CHECK((faults() & kWeightStuck) == 0);
    }
    SECTION("a cell torn off") {
        drive->turn_fault(kCellTorn);
        run(*drive, 40.0);
        CHECK(alarms(*drive, AlarmId::weight_fault));
    }
    SECTION("the weight gone") {
        drive->turn_fault(kWeightGone);
        run(*drive, 40.0);
        CHECK(alarms(*drive, AlarmId::weight_fault));
    }
    SECTION("the speed gone") {
        drive->turn_fault(kSpeedGone);
        run(*drive, 180.0);
        CHECK(alarms(*drive, AlarmId::speed_fault));
    }
    SECTION("the tilt dead") {
        drive->turn_fault(kTiltGone);
        run(*drive, 40.0);
        CHECK((faults() & kTiltDead) != 0);
    }
    SECTION("the drum blocked") {
        drive->turn_fault(kDrumBlocked);
        run(*drive, 60.0);
        CHECK(alarms(*drive, AlarmId::drum_blocking));
    }
    SECTION("the hopper leaking, on a machine that stands") {
        drive->viner().halt();
        run(*drive, 30.0);
        drive->turn_fault(kLeaking);
        run(*drive, 90.0);
        CHECK(alarms(*drive, AlarmId::hopper_leak));
    }
    SECTION("nothing coming") {
        const TimeUs heard_us = drive->row_us();
        drive->turn_fault(kNothingComes);
        run(*drive, 90.0);
        CHECK(drive->row_us() == heard_us);
        drive->turn_fault(kNothingComes);
        run(*drive, 0.2);
        CHECK(drive->row_us() == drive->now_us());
        CHECK((faults() & kWeightMissing) != 0);
    }
    SECTION("a tip in part") {
        run(*drive, 90.0);
        drive->turn_fault(kTipInPart);
        CHECK(drive->fault_on(kTipInPart));
        const double before_kg = drive->viner().truth().mass_kg;
        REQUIRE(before_kg > 100.0);
        tip(*drive);
        CHECK_FALSE(drive->fault_on(kTipInPart));
        CHECK(drive->viner().truth().mass_kg > std::min(before_kg, 450.0));
    }
}

TEST_CASE("The score says how often the truth lay in the range told, and where the time went") {
    const auto drive = drive_of(2);
    DriveScore score(drive->machine().drum.dead_time_s);
    const auto seconds = [&](int count) {
        for (int i = 0; i < count; ++i) {
            run(*drive, 1.0);
            const Estimate e = drive->estimator().read();
            score.second(drive->viner().truth(), drive->fault_under_way(FaultKind::drum_blocked), &e);
        }
    };
    seconds(20);
    CHECK(score.standing_s() == 20);
    CHECK(score.compared_s(DriveFigure::yield) == 0);
    drive->viner().turn_reel();
    drive->viner().go_on();
    seconds(110);
    for (const DriveFigure figure :
         {DriveFigure::rate, DriveFigure::yield, DriveFigure::loss, DriveFigure::hopper}) {
        CHECK(score.compared_s(figure) > 80);
        CHECK(score.held_s(figure) <= score.compared_s(figure));
        // Few seconds, which resemble their neighbours: no more than that most lie inside.
        CHECK(static_cast<double>(score.held_s(figure)) >
              0.6 * static_cast<double>(score.compared_s(figure)));
    }
    const VinerTruth& truth = drive->viner().truth();
    CHECK(score.mean_loss() == Approx(truth.lost_kg / (truth.lost_kg + truth.cut_kg)));
    CHECK(score.beside(DriveFigure::hopper).truth == truth.mass_kg);
    CHECK(score.blocked_s() == 0);
    drive->turn_fault(kDrumBlocked);
    seconds(7);
    CHECK(score.blocked_s() == 7);
    drive->turn_fault(kDrumBlocked);
    seconds(3);
    CHECK(score.blocked_s() == 7);
    score.second(truth, false, nullptr);
    CHECK_FALSE(score.beside(DriveFigure::rate).known);
    CHECK(score.seconds() == 141);
}
