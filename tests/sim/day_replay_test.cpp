#include <catch2/catch.hpp>

#include "replay/day_replay.hpp"
#include "support/small_day.hpp"

using namespace podrate;

namespace {

struct CountRows : sim::ReplaySink {
    explicit CountRows(long& count) : rows(count) {}
    void on_row(const sim::LogRow&, const Estimate&) override { ++rows; }
    long& rows;
};

}  // namespace

TEST_CASE("A sink sees every good row of its own machine") {
    const test::TempFolder folder;
    test::write_small_day(folder);
    test::write_text(folder / "birch.csv", test::small_log(700));
    const sim::Day day = sim::read_day(folder.path());
    std::vector<long> rows(3, 0);
    sim::ReplayHooks hooks;
    hooks.sink = [&rows](const sim::Machine&, std::size_t i) { return std::make_unique<CountRows>(rows[i]); };
    const sim::DayResult result = sim::replay_day(day, hooks);
    CHECK(rows == std::vector<long>{1200, 700, 1200});
    CHECK(result.all_used(day));
    CHECK(result.machines[1].rows_read == 700);
}

TEST_CASE("A day's machines come out as they do alone") {
    const test::TempFolder folder;
    test::write_small_day(folder);
    const sim::Day day = sim::read_day(folder.path());
    const sim::DayResult together = sim::replay_day(day, {});
    for (std::size_t i = 0; i < day.machines.size(); ++i) {
        const sim::MachineResult alone = sim::replay_machine(day.machines[i], {}, nullptr);
        CHECK(alone.last.harvested_kg == together.machines[i].last.harvested_kg);
        CHECK(alone.last.area_m2 == together.machines[i].last.area_m2);
    }
}

TEST_CASE("Progress never falls and ends at the whole") {
    const test::TempFolder folder;
    test::write_small_day(folder);
    const sim::Day day = sim::read_day(folder.path());
    double last = 0.0;
    bool fell = false;
    sim::ReplayHooks hooks;
    hooks.progress = [&](double share) {
        fell = fell || share < last;
        last = share;
    };
    (void)sim::replay_day(day, hooks);
    CHECK_FALSE(fell);
    CHECK(last == Approx(1.0));
}

TEST_CASE("A sink that fails ends the replay with its error") {
    struct Failing : sim::ReplaySink {
        void on_row(const sim::LogRow&, const Estimate&) override { throw std::runtime_error("disk full"); }
    };
    const test::TempFolder folder;
    test::write_small_day(folder);
    const sim::Day day = sim::read_day(folder.path());
    sim::ReplayHooks hooks;
    hooks.sink = [](const sim::Machine&, std::size_t) { return std::make_unique<Failing>(); };
    CHECK_THROWS_WITH(sim::replay_day(day, hooks), "disk full");
}

TEST_CASE("What a person would find strange in a result is told") {
    const test::TempFolder folder;
    std::string dead = "unix_s,speed_mps,hopper_kg,reel_on\n";
    std::string slow = "unix_s,hopper_kg\n";
    for (int i = 0; i < 2400; ++i) {
        const std::string time = std::to_string(1751032800 + i);
        // A weight in tonnes: digits that move and amount to nothing.
        dead += time + ",0.8," + std::to_string(0.1 + 0.0013 * i) + ",1\n";
        slow += time + "," + std::to_string(0.5 * i) + "\n";
    }
    const sim::Day tonnes = sim::day_of_one_log(folder.file("tonnes.csv", dead), 3.3);
    const sim::MachineResult in_tonnes = sim::replay_machine(tonnes.machines.front(), {}, nullptr);
    REQUIRE(in_tonnes.problems.faults() == 1);
    CHECK(in_tonnes.problems.kept().front().reason.find("the weight hardly rises") == 0);
    const sim::Day no_speed = sim::day_of_one_log(folder.file("no_speed.csv", slow), 3.3);
    const sim::MachineResult without = sim::replay_machine(no_speed.machines.front(), {}, nullptr);
    CHECK(without.problems.faults() == 0);
    REQUIRE(without.problems.count() == 1);
    CHECK(without.problems.kept().front().reason.find("has no speed_mps") == 0);
}

TEST_CASE("A revised load takes the place of the one before") {
    std::vector<Load> loads;
    Load load;
    load.number = 1;
    sim::keep_newest(loads, load);
    load.revision = 1;
    load.net_kg = Real(7);
    sim::keep_newest(loads, load);
    REQUIRE(loads.size() == 1);
    CHECK(loads.front().net_kg == Real(7));
    load.number = 2;
    sim::keep_newest(loads, load);
    CHECK(loads.size() == 2);
}

TEST_CASE("Yield and load rate follow from kilograms and area and hours") {
    sim::MachineResult machine;
    machine.last.harvested_kg = Real(4500);
    machine.last.area_m2 = Real(10000);
    machine.seconds_by_state[static_cast<std::size_t>(WorkState::harvesting)] = 1800.0;
    CHECK(machine.yield_tpha() == Approx(4.5));
    CHECK(machine.load_rate_tph() == Approx(9.0));
    CHECK(sim::MachineResult{}.yield_tpha() == 0.0);
    CHECK(sim::MachineResult{}.load_rate_tph() == 0.0);
    // 5 t/ha is half a kilogram a square metre.
    CHECK(sim::tonnes_per_hectare(0.5, 1.0) == Approx(5.0));
}
