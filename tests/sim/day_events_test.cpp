#include "synth/machine/day_events.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate::sim;

namespace {

using Kind = ScenarioEvent::Kind;
// Five standard deviations of chance: with fixed seeds the outcome is fixed too, so these hold or do not.
constexpr double kSigmas = 5.0;

ScenarioMachine machine_of(const std::string& id) {
    ScenarioMachine machine;
    machine.id = id;
    return machine;
}

std::vector<ScenarioEvent> all_stops(const Scenario& scenario, const ScenarioMachine& machine) {
    DayEvents events(scenario, machine);
    std::vector<ScenarioEvent> stops;
    while (const ScenarioEvent* stop = events.stop_due(1e9)) {
        stops.push_back(*stop);
        events.take_stop();
    }
    return stops;
}

struct Drawn {
    double count = 0.0;
    double total_s = 0.0;
    double shortest_s = 1e9;
};

// Stops of one kind over many days of ten hours.
Drawn drawn_of(Kind kind, const ScenarioMachine& machine, int days) {
    Drawn drawn;
    for (int day = 1; day <= days; ++day) {
        Scenario scenario;
        scenario.seed = static_cast<std::uint64_t>(day);
        scenario.hours = 10.0;
        for (const ScenarioEvent& stop : all_stops(scenario, machine)) {
            if (stop.kind != kind) continue;
            ++drawn.count;
            drawn.total_s += stop.for_s;
            drawn.shortest_s = std::min(drawn.shortest_s, stop.for_s);
        }
    }
    return drawn;
}

}  // namespace

TEST_CASE("The stops that a scenario names come in the order of their times, each until it is taken") {
    Scenario scenario;
    scenario.events = {{Kind::breakdown, "viner_1", 500.0, 60.0},
                       {Kind::pause_in_crop, "viner_1", 100.0, 20.0},
                       {Kind::pause_in_crop, "viner_2", 50.0, 10.0}};
    DayEvents events(scenario, machine_of("viner_1"));
    CHECK(events.stop_due(99.9) == nullptr);
    REQUIRE(events.stop_due(100.0) != nullptr);
    CHECK(events.stop_due(100.0)->kind == Kind::pause_in_crop);
    CHECK(events.stop_due(600.0)->at_s == 100.0);
    events.take_stop();
    CHECK(events.stop_due(499.9) == nullptr);
    REQUIRE(events.stop_due(500.0) != nullptr);
    CHECK(events.stop_due(500.0)->kind == Kind::breakdown);
    events.take_stop();
    CHECK(events.stop_due(1e9) == nullptr);
}

TEST_CASE("Rests and changes of shift wait for the end of a bout and come once") {
    Scenario scenario;
    scenario.events = {{Kind::rest, "viner_1", 1000.0, 900.0}};
    scenario.shifts = {{7200.0, 300.0}, {3600.0, 600.0}};
    DayEvents events(scenario, machine_of("viner_1"));
    bool hands_over = true;
    CHECK(events.stop_due(1e9) == nullptr);
    CHECK(events.take_rest(999.0, hands_over) == 0.0);
    CHECK_FALSE(hands_over);
    CHECK(events.take_rest(1000.0, hands_over) == 900.0);
    CHECK_FALSE(hands_over);
    CHECK(events.take_rest(3599.0, hands_over) == 0.0);
    CHECK(events.take_rest(3700.0, hands_over) == 600.0);
    CHECK(hands_over);
    CHECK(events.take_rest(3701.0, hands_over) == 0.0);
    CHECK_FALSE(hands_over);
    CHECK(events.take_rest(8000.0, hands_over) == 300.0);
    CHECK(hands_over);
    CHECK(events.take_rest(1e9, hands_over) == 0.0);
}

TEST_CASE("A rest that falls due with a change of shift is taken with it, the longer of both") {
    Scenario scenario;
    scenario.events = {{Kind::rest, "viner_1", 3500.0, 1800.0}};
    scenario.shifts = {{3600.0, 600.0}};
    DayEvents events(scenario, machine_of("viner_1"));
    bool hands_over = false;
    CHECK(events.take_rest(3650.0, hands_over) == 1800.0);
    CHECK(hands_over);
    CHECK(events.take_rest(1e9, hands_over) == 0.0);
}

TEST_CASE("Pauses and breakdowns come as often as their rates say and within the day") {
    ScenarioMachine machine = machine_of("viner_1");
    machine.driver.pauses_per_h = 3.0;
    machine.driver.breakdowns_per_h = 0.4;
    constexpr int kDays = 400;
    const double pauses = drawn_of(Kind::pause_in_crop, machine, kDays).count;
    const double breakdowns = drawn_of(Kind::breakdown, machine, kDays).count;
    CHECK(pauses == Approx(30.0 * kDays).margin(kSigmas * std::sqrt(30.0 * kDays)));
    CHECK(breakdowns == Approx(4.0 * kDays).margin(kSigmas * std::sqrt(4.0 * kDays)));
    Scenario scenario;
    scenario.hours = 2.0;
    double last_s = 0.0;
    for (const ScenarioEvent& stop : all_stops(scenario, machine)) {
        CHECK(stop.at_s >= last_s);
        CHECK(stop.at_s < 7200.0);
        CHECK(stop.machine == "viner_1");
        last_s = stop.at_s;
    }
}

TEST_CASE("Pauses and breakdowns last as long as told on average") {
    ScenarioMachine machine = machine_of("viner_1");
    machine.driver.pauses_per_h = 3.0;
    machine.driver.pause_s = 60.0;
    machine.driver.breakdowns_per_h = 3.0;
    machine.driver.breakdown_s = 900.0;
    const Drawn pauses = drawn_of(Kind::pause_in_crop, machine, 400);
    const Drawn breakdowns = drawn_of(Kind::breakdown, machine, 400);
    CHECK(pauses.total_s / pauses.count == Approx(60.0).margin(kSigmas * 60.0 / std::sqrt(pauses.count)));
    CHECK(breakdowns.total_s / breakdowns.count ==
          Approx(900.0).margin(kSigmas * 900.0 / std::sqrt(breakdowns.count)));
    // A machine that stops does not go on at once.
    CHECK(pauses.shortest_s >= 5.0);
}

TEST_CASE("Breakdowns with a log-normal's tail last as long as told on average and half of them less") {
    ScenarioMachine machine = machine_of("viner_1");
    machine.driver.breakdowns_per_h = 1.0;
    machine.driver.breakdown_s = 1210.0;
    machine.driver.breakdown_ln_sd = 0.8;
    std::vector<double> lengths_s;
    for (std::uint64_t day = 1; day <= 300; ++day) {
        Scenario scenario;
        scenario.seed = day;
        scenario.hours = 10.0;
        for (const ScenarioEvent& stop : all_stops(scenario, machine)) lengths_s.push_back(stop.for_s - 10.0);
    }
    const auto n = static_cast<double>(lengths_s.size());
    double mean_s = 0.0;
    double below = 0.0;
    const double median_s = 1200.0 * std::exp(-0.5 * 0.8 * 0.8);
    for (const double s : lengths_s) {
        mean_s += s / n;
        below += s < median_s ? 1.0 / n : 0.0;
    }
    const double sd_s = 1200.0 * std::sqrt(std::exp(0.8 * 0.8) - 1.0);
    CHECK(mean_s == Approx(1200.0).margin(kSigmas * sd_s / std::sqrt(n)));
    CHECK(below == Approx(0.5).margin(kSigmas * 0.5 / std::sqrt(n)));
}

TEST_CASE("Without rates nothing befalls a machine, and each machine has its own luck") {
    ScenarioMachine one = machine_of("viner_1");
    ScenarioMachine two = machine_of("viner_2");
    Scenario scenario;
    scenario.hours = 10.0;
    CHECK(all_stops(scenario, one).empty());
    one.driver.pauses_per_h = 3.0;
    two.driver.pauses_per_h = 3.0;
    const auto first = all_stops(scenario, one);
    const auto second = all_stops(scenario, two);
    REQUIRE(first.size() > 5);
    REQUIRE(second.size() > 5);
    CHECK(first[0].at_s != second[0].at_s);
    CHECK(all_stops(scenario, one)[0].at_s == first[0].at_s);
}
