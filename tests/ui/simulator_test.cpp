// The simulator: keys, orders, the room's time, and what is told of it.
#include "simulator/simulator.hpp"

#include <catch2/catch.hpp>

#include "log/log_reader.hpp"
#include "model/session.hpp"
#include "simulator/simulator_figures.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using namespace podrate::ui;
using podrate::test::TempFolder;

namespace {

constexpr Speech kEnglish;

void press(Simulator& simulator, Key key) {
    simulator.take(simulator_order_of(key));
}

void pass(Simulator& simulator, int seconds) {
    for (int i = 0; i < seconds; ++i) simulator.tick(1.0);
}

std::string notice(const Simulator& simulator) {
    return simulator_figures(simulator, kEnglish).notice;
}

std::string state_of(const Simulator& simulator, const std::string& what) {
    for (const ControlLine& line : simulator_figures(simulator, kEnglish).controls) {
        if (line.what == what) return line.state;
    }
    return "not told";
}

}  // namespace

TEST_CASE("Each key of the simulator orders something, and each fault has its digit") {
    CHECK(simulator_order_of(Key::up).action == SimulatorAction::faster);
    CHECK(simulator_order_of(Key::space).action == SimulatorAction::turn_reel);
    CHECK(simulator_order_of(Key::none).action == SimulatorAction::none);
    CHECK(simulator_order_of(Key::d1).fault == 0);
    CHECK(simulator_order_of(Key::d9).fault == 8);
    CHECK(simulator_order_of(Key::d0).fault == 9);
    CHECK(simulator_order_of(Key::q).action == SimulatorAction::none);
}

TEST_CASE("The room's time passes at the pace chosen, and not while paused") {
    Simulator simulator(1, Parameters(), ".");
    const TimeUs start_us = simulator.now_us();
    const auto passed_s = [&] { return static_cast<double>(simulator.now_us() - start_us) / 1e6; };
    for (int i = 0; i < 20; ++i) simulator.tick(0.05);
    CHECK(passed_s() == Approx(1.0));
    press(simulator, Key::page_up);
    press(simulator, Key::page_up);
    simulator.tick(1.0);
    CHECK(passed_s() == Approx(6.0));
    for (int i = 0; i < 9; ++i) press(simulator, Key::page_up);
    CHECK(simulator.pace() == Simulator::kMostPace);
    simulator.tick(3600.0);  // the window hung
    CHECK(passed_s() == Approx(16.0));
    press(simulator, Key::p);
    simulator.tick(1.0);
    CHECK(passed_s() == Approx(16.0));
    CHECK(simulator_figures(simulator, kEnglish).pace == "paused");
    press(simulator, Key::p);
    for (int i = 0; i < 9; ++i) press(simulator, Key::page_down);
    CHECK(simulator.pace() == 1);
    CHECK(simulator_figures(simulator, kEnglish).pace == "1x");
}

TEST_CASE("The simulator speaks as a live machine does, and says that it is none") {
    Simulator simulator(1, Parameters(), ".");
    demonstrate(simulator);
    const DriverFigures shown = simulator.figures(kEnglish);
    CHECK(shown.known);
    CHECK(shown.state == WorkState::harvesting);
    CHECK(shown.machine == "SIMULATION");
    CHECK(shown.clock == "14:01:45");
    CHECK(shown.alarm.shown);
    CHECK(shown.alarm.alarm == AlarmId::weight_fault);
    CHECK(simulator.newest().has_value());
    CHECK(simulator.title(kEnglish) == "SIMULATION, no machine: 14:01:45, 1x");
    Session session(simulator);
    CHECK(session.title() == "Podrate: SIMULATION, no machine: 14:01:45, 1x, cautions");
    press(simulator, Key::p);
    CHECK(simulator.title({Language::german, Units::metric}) ==
          "SIMULATION, keine Maschine: 14:01:45, angehalten");
    press(simulator, Key::p);
    press(simulator, Key::d9);
    pass(simulator, 3);
    CHECK_FALSE(simulator.figures(kEnglish).known);
    CHECK(simulator.figures(kEnglish).no_data.what == "Nothing comes from Simulator");
    press(simulator, Key::d9);
    pass(simulator, 1);
    CHECK(simulator.figures(kEnglish).known);
}

TEST_CASE("Time stands still while cautions or help are up") {
    Simulator simulator(1, Parameters(), ".");
    Session session(simulator);
    const TimeUs start_us = simulator.now_us();
    session.drive_on(1.0);
    CHECK(simulator.now_us() == start_us);
    session.skip_cautions();
    session.drive_on(1.0);
    CHECK(simulator.now_us() == start_us + kSecondUs);
    press(simulator, Key::right);
    session.drive_on(1.0);
    session.apply(Action::help);
    CHECK(session.help_up());  // no machine moves here that wants eyes
    session.drive_on(1.0);
    CHECK(simulator.now_us() == start_us + 2 * kSecondUs);
}

TEST_CASE("The strip says how the controls stand, what comes next, and why an order was refused") {
    Simulator simulator(1, Parameters(), ".");
    CHECK(notice(simulator) == "Reel on, then drive off");
    CHECK(state_of(simulator, "Reel") == "lifted");
    CHECK(state_of(simulator, "Speed wanted") == "0.0 km/h");
    press(simulator, Key::right);
    pass(simulator, 5);
    CHECK(notice(simulator) == "Reel lifted: this crop stays");
    press(simulator, Key::space);
    pass(simulator, 40);
    CHECK(notice(simulator) == "280 m left in this bout");
    CHECK(state_of(simulator, "Reel") == "on");
    CHECK(state_of(simulator, "Speed wanted") == "2.8 km/h");
    press(simulator, Key::up);
    CHECK(state_of(simulator, "Speed wanted") == "3.0 km/h");
    press(simulator, Key::t);
    CHECK(notice(simulator) == "No tip while moving: stop first");
    CHECK(simulator_figures(simulator, kEnglish).refused);
    press(simulator, Key::left);
    CHECK_FALSE(simulator_figures(simulator, kEnglish).refused);
    pass(simulator, 15);
    press(simulator, Key::t);
    CHECK(notice(simulator) == "No tip with the reel on: lift it first");
    press(simulator, Key::space);
    press(simulator, Key::t);
    CHECK(notice(simulator) == "emptying");
    CHECK(state_of(simulator, "Tip") == "47 s to go");
    press(simulator, Key::up);
    CHECK(notice(simulator) == "Not before the bin is down");
    pass(simulator, 50);
    CHECK(state_of(simulator, "Tip") == "bin down");
    press(simulator, Key::t);
    CHECK(notice(simulator) == "Nothing to tip");
    const SimulatorFigures f = simulator_figures(simulator, kEnglish);
    CHECK(f.score[1].name == "Tipped");
    CHECK(f.score[1].value != "0.00 t");
    CHECK(f.faults.size() == 10);
    CHECK(f.faults[6].name == "Drum blocked");
    CHECK_FALSE(f.faults[6].on);
    press(simulator, Key::d7);
    CHECK(simulator_figures(simulator, kEnglish).faults[6].on);
}

TEST_CASE("Truth stands beside what is told, and whether the range holds it") {
    Simulator simulator(1, Parameters(), ".");
    for (const BesideLine& line : simulator_figures(simulator, kEnglish).beside)
        if (line.name != "Hopper" && line.name != "Load rate") CHECK(line.verdict.empty());
    demonstrate(simulator);
    const SimulatorFigures f = simulator_figures(simulator, kEnglish);
    REQUIRE(f.beside.size() == 4);
    for (std::size_t i = 0; i < f.beside.size(); ++i) {
        const BesideLine& line = f.beside[i];
        const auto& now = simulator.score().beside(static_cast<sim::DriveFigure>(i));
        INFO(line.name);
        CHECK(now.known);
        CHECK(line.holds == (now.truth >= now.low && now.truth <= now.high));
        CHECK(line.verdict == (line.holds ? "in it" : "outside"));
        CHECK(line.told.find(" to ") != std::string::npos);
        CHECK(line.so_far.find(" %") != std::string::npos);
    }
}

TEST_CASE("What was driven is saved under a new name, and where it can't be that is told") {
    const TempFolder folder;
    Simulator simulator(1, Parameters(), folder.path());
    pass(simulator, 3);
    press(simulator, Key::d);
    CHECK(notice(simulator) == "Saved: simulated_1");
    press(simulator, Key::d);
    CHECK(notice(simulator) == "Saved: simulated_2");
    CHECK(test::text_of(folder.path() / "simulated_1" / "sim_viner.csv") == simulator.drive().log_text());
    const sim::Day day = sim::read_day(folder.path() / "simulated_1");
    CHECK(day.label == "Simulator");
    Simulator nowhere(1, Parameters(), folder.file("plain", "no folder"));
    press(nowhere, Key::d);
    CHECK(notice(nowhere).find("Not saved: ") == 0);
    CHECK(simulator_figures(nowhere, kEnglish).refused);
}

TEST_CASE("A threshold tried in the simulator counts") {
    Parameters parameters;
    parameters.hopper_nearly_full_share = Real(0.2);
    parameters.hopper_full_share = Real(0.3);
    parameters.hopper_capacity_kg = Real(200);
    Simulator simulator(1, parameters, ".");
    press(simulator, Key::space);
    press(simulator, Key::right);
    pass(simulator, 100);
    const auto newest = simulator.newest();
    REQUIRE(newest.has_value());
    CHECK((newest->alarms & (1U << static_cast<unsigned>(AlarmId::hopper_full))) != 0);
}

TEST_CASE("Alarms of the simulator are answered as those of a live machine") {
    Simulator simulator(1, Parameters(), ".");
    demonstrate(simulator);
    Session session(simulator);
    session.skip_cautions();
    REQUIRE(simulator.figures(kEnglish).alarm.alarm == AlarmId::weight_fault);
    session.press({Key::a});
    CHECK(simulator.drive().estimator().alarms().alarm(AlarmId::weight_fault).acknowledged());
    CHECK(notice(simulator) == simulator.figures(kEnglish).answers.noted);
    CHECK_FALSE(notice(simulator).empty());
    session.press({Key::s});
    CHECK_FALSE(simulator.figures(kEnglish).alarm.shown);
    pass(simulator, 5);
    CHECK_FALSE(simulator.figures(kEnglish).alarm.shown);
    CHECK(notice(simulator) == simulator.figures(kEnglish).answers.shelf);
    session.press({Key::b});
    pass(simulator, 1);
    CHECK(simulator.figures(kEnglish).alarm.shown);
    CHECK(simulator_figures(simulator, kEnglish).faults[1].on);
}
