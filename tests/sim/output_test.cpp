#include <catch2/catch.hpp>

#include "log/column_reader.hpp"
#include "report/estimates_csv.hpp"
#include "report/loads_csv.hpp"
#include "report/output_file.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;

TEST_CASE("A file appears whole or not at all") {
    const test::TempFolder folder;
    {
        sim::OutputFile draft(folder / "a.csv");
        draft.write("half");
        CHECK_FALSE(std::filesystem::exists(folder / "a.csv"));
    }
    CHECK(std::filesystem::is_empty(folder.path()));
    sim::write_file(folder / "a.csv", "old");
    {
        sim::OutputFile draft(folder / "a.csv");
        draft.write("half");
    }
    CHECK(test::text_of(folder / "a.csv") == "old");
    sim::write_file(folder / "a.csv", "new");
    CHECK(test::text_of(folder / "a.csv") == "new");
}

TEST_CASE("A file that can't be written is told with its path") {
    const test::TempFolder folder;
    CHECK_THROWS_AS(sim::OutputFile(folder / "no" / "such.csv"), sim::RefusedInput);
    const std::filesystem::path file = folder.file("plain", "x");
    CHECK_THROWS_AS(sim::make_folder(file), sim::RefusedInput);
    CHECK_THROWS_AS(sim::make_folder(file / "below"), sim::RefusedInput);
}

TEST_CASE("Alarms and faults are named and joined, alarms first") {
    CHECK(sim::alarm_names(0, 0).empty());
    constexpr std::uint16_t kFull = 1U << static_cast<unsigned>(AlarmId::hopper_full);
    constexpr std::uint16_t kOld = 1U << static_cast<unsigned>(AlarmId::peas_old);
    CHECK(sim::alarm_names(kFull, 0) == "hopper_full");
    CHECK(sim::alarm_names(kFull | kOld, kWeightStuck) == "hopper_full|peas_old|weight_stuck");
    CHECK(sim::alarm_names(0, kWeightStuck) == "weight_stuck");
    CHECK(sim::alarm_names(0, kWeightMissing | kSpeedMissing) == "weight_missing|speed_missing");
}

TEST_CASE("A load's figures follow from its kilograms and its area") {
    Load load;
    load.net_kg = Real(1800);
    load.lost_kg = Real(200);
    load.area_m2 = Real(4000);
    load.first_cut_us = 0;
    load.end_us = 15 * 60 * kSecondUs;
    CHECK(sim::loss_share_of(load) == Approx(0.1));
    CHECK(sim::yield_tpha_of(load) == Approx(4.5));
    CHECK(sim::oldest_pea_min(load) == Approx(15.0));
    CHECK(sim::yield_tpha_of(Load{}) == 0.0);
    CHECK(sim::loss_share_of(Load{}) == 0.0);
}

TEST_CASE("The ledger of loads has a place only where one is known") {
    sim::DayResult result;
    sim::MachineResult machine;
    machine.id = "viner_1";
    Load load;
    load.number = 1;
    load.net_kg = Real(1500);
    machine.loads.push_back(load);
    load.number = 2;
    load.place_known = true;
    load.lat_e7 = 526012345;
    load.lon_e7 = -29054321;
    machine.loads.push_back(load);
    result.machines.push_back(machine);
    const std::string text = sim::loads_csv(result);
    CHECK(text.find("viner_1,1,0.0,0.0,,,1500.0,") != std::string::npos);
    CHECK(text.find("viner_1,2,0.0,0.0,52.6012345,-2.9054321,1500.0,") != std::string::npos);
}

TEST_CASE("Files of our own are read by column and must be whole") {
    const test::TempFolder folder;
    sim::ColumnReader reader(folder.file("a.csv", "b,a\n2,1\n4,3\n"), {"a", "b"});
    REQUIRE(reader.next());
    CHECK(reader.number(0) == 1.0);
    CHECK(reader.text(1) == "2");
    REQUIRE(reader.next());
    CHECK_FALSE(reader.next());
    CHECK_THROWS_AS(sim::ColumnReader(folder.file("c.csv", "a\n"), {"b"}), sim::RefusedInput);
    CHECK_THROWS_AS(sim::ColumnReader(folder.file("d.csv", ""), {"b"}), sim::RefusedInput);
    sim::ColumnReader broken(folder.file("e.csv", "a,b\n1\n"), {"a"});
    CHECK_THROWS_AS(broken.next(), sim::RefusedInput);
    sim::ColumnReader words(folder.file("f.csv", "a\nx\n"), {"a"});
    REQUIRE(words.next());
    CHECK_THROWS_AS(words.number(0), sim::RefusedInput);
}
