#include "score/estimates_at.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "log/column_reader.hpp"
#include "log/problem.hpp"
#include "support/temp_folder.hpp"
#include "synth/sense/sensors.hpp"
#include "synth/write/day_files.hpp"
#include "synth/write/log_writer.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::TempFolder;

namespace {

const std::string kHead =
    "unix_s,mass_kg,mass_sd_kg,flow_kgps,flow_sd_kgps,loss_share,loss_low,loss_high,state,alarms\n";
const std::string kFaultsHead = "machine,kind,cell,start_unix_s,end_unix_s,size\n";

const std::string kRows = kHead +
                          "1000.0,100,2,1.0,0.1,0.05,0.02,0.10,harvesting,\n"
                          "1001.0,102,4,2.0,0.3,0.06,0.03,0.11,turning,weight_fault|weight_stuck\n"
                          "1002.0,105,4,2.0,0.3,0.06,0.03,0.11,turning,\n"
                          "1006.0,120,4,3.0,0.3,0.06,0.03,0.11,harvesting,\n";

// A folder with estimates and, where given, a truth of faults.
struct Replayed {
    explicit Replayed(const std::string& estimates, const std::string& faults = "") {
        path = folder.file("estimates_viner_1.csv", estimates);
        if (faults.empty()) return;
        std::filesystem::create_directory(folder / "truth");
        test::write_text(folder / "truth" / "faults.csv", kFaultsHead + faults);
    }
    [[nodiscard]] LogClock clock(const std::string& machine = "viner_1") const {
        return LogClock(folder.path(), machine);
    }
    [[nodiscard]] EstimatesAt at() const { return EstimatesAt(path, clock()); }

    TempFolder folder;
    std::filesystem::path path;
};

void check_refused(const std::string& text, const std::string& told) {
    const Replayed replayed(text);
    EstimateRow row;
    try {
        EstimatesAt estimates = replayed.at();
        for (double unix_s = 1000.0; unix_s < 1010.0; ++unix_s) (void)estimates.at(unix_s, row);
        FAIL("taken");
    } catch (const RefusedInput& refused) {
        INFO(refused.what());
        CHECK(std::string(refused.what()).find(told) != std::string::npos);
        CHECK(std::string(refused.what()).find("estimates_viner_1.csv") != std::string::npos);
        CHECK_FALSE(refused.problem().mend.empty());
    }
}

}  // namespace

TEST_CASE("An estimate at a row's own time is that row") {
    const Replayed replayed(kRows);
    EstimatesAt estimates = replayed.at();
    EstimateRow row;
    REQUIRE(estimates.at(1001.0, row));
    CHECK(row.unix_s == 1001.0);
    CHECK(row.mass_kg == 102.0);
    CHECK(row.mass_sd_kg == 4.0);
    CHECK(row.flow_kgps == 2.0);
    CHECK(row.flow_sd_kgps == 0.3);
    CHECK(row.loss_share == 0.06);
    CHECK(row.loss_low == 0.03);
    CHECK(row.loss_high == 0.11);
    CHECK(row.state == static_cast<int>(WorkState::turning));
    CHECK(row.alarm);
    // Asked for once more.
    REQUIRE(estimates.at(1001.0, row));
    CHECK(row.mass_kg == 102.0);
}

TEST_CASE("An alarm of loss is told by its whole name and is no sensor's fault") {
    const auto seen = [](const std::string& alarms) {
        const Replayed replayed(kHead + "1000.0,100,2,1.0,0.1,0.05,0.02,0.10,harvesting," + alarms + "\n");
        EstimatesAt estimates = replayed.at();
        EstimateRow row;
        REQUIRE(estimates.at(1000.0, row));
        return std::pair{row.loss_alarm, row.alarm};
    };
    CHECK(seen("") == std::pair{false, false});
    CHECK(seen("loss_high") == std::pair{true, false});
    CHECK(seen("rate_low|loss_high|weight_fault|weight_stuck") == std::pair{true, true});
    CHECK(seen("loss_higher|hopper_full") == std::pair{false, false});
}

TEST_CASE("Between two rows numbers run on evenly and the state is that of the row before") {
    const Replayed replayed(kRows);
    EstimatesAt estimates = replayed.at();
    EstimateRow row;
    REQUIRE(estimates.at(1000.25, row));
    CHECK(row.unix_s == 1000.25);
    CHECK(row.mass_kg == Approx(100.5));
    CHECK(row.mass_sd_kg == Approx(2.5));
    CHECK(row.flow_kgps == Approx(1.25));
    CHECK(row.flow_sd_kgps == Approx(0.15));
    CHECK(row.state == static_cast<int>(WorkState::harvesting));
    CHECK_FALSE(row.alarm);
}

TEST_CASE("Where no row stands near on either side there is no estimate") {
    const Replayed replayed(kRows);
    EstimatesAt estimates = replayed.at();
    EstimateRow row;
    CHECK_FALSE(estimates.at(998.0, row));
    CHECK_FALSE(estimates.at(999.9, row));
    CHECK(estimates.at(1000.0, row));
    CHECK(estimates.at(1002.0, row));
    // Four seconds without a row: far from one of them everywhere.
    for (const double unix_s : {1002.1, 1003.0, 1004.0, 1005.0, 1005.9})
        CHECK_FALSE(estimates.at(unix_s, row));
    CHECK(estimates.at(1006.0, row));
    CHECK(row.mass_kg == 120.0);
    CHECK_FALSE(estimates.at(1006.5, row));
    CHECK_FALSE(estimates.at(1e9, row));
}

TEST_CASE("A gap of three seconds is bridged in its middle") {
    const Replayed replayed(kHead +
                            "1000.0,100,2,1.0,0.1,0.05,0.02,0.10,harvesting,\n"
                            "1003.0,106,2,4.0,0.1,0.05,0.02,0.10,harvesting,\n");
    EstimatesAt estimates = replayed.at();
    EstimateRow row;
    CHECK_FALSE(estimates.at(1001.0, row));
    REQUIRE(estimates.at(1001.5, row));
    CHECK(row.mass_kg == Approx(103.0));
    CHECK_FALSE(estimates.at(1002.0, row));
}

TEST_CASE("A file without rows has no estimate") {
    const Replayed replayed(kHead);
    EstimatesAt estimates = replayed.at();
    EstimateRow row;
    CHECK_FALSE(estimates.at(1000.0, row));
}

TEST_CASE("Estimates that are not whole are refused with the file's name") {
    check_refused("", "is empty");
    check_refused("unix_s,mass_kg\n1000,5\n", "has no column mass_sd_kg");
    check_refused(kHead + "1000.0,100,2,1.0,0.1,0.05,0.02,0.10,dancing,\n", "unknown work state 'dancing'");
    check_refused(kHead + "1000.0,heavy,2,1.0,0.1,0.05,0.02,0.10,turning,\n", "mass_kg is 'heavy'");
    check_refused(kHead + "1000.0,100,2,1.0,0.1\n", "wrong cell count");
}

TEST_CASE("Every work state is found by its name") {
    for (int i = 0; i < kWorkStates; ++i)
        CHECK(state_index(name_of(static_cast<WorkState>(i)), "estimates.csv") == i);
    CHECK_THROWS_AS(state_index("", "estimates.csv"), RefusedInput);
}

TEST_CASE("A log's clock is true without faults and without jumps") {
    CHECK(Replayed(kRows).clock().true_unix_s(1234.5) == 1234.5);
    const Replayed replayed(kRows, "viner_1,weight_stuck,0,1000.0,1010.0,30.0\n");
    CHECK(replayed.clock().true_unix_s(1234.5) == 1234.5);
}

TEST_CASE("Rows of a clock that was put on stand at their true times, without a gap") {
    const Replayed replayed(kRows, "viner_1,clock_jump,0,1002.0,1002.0,3.0\n");
    const LogClock clock = replayed.clock();
    CHECK(clock.true_unix_s(1001.9) == Approx(1001.9));
    CHECK(clock.true_unix_s(1005.0) == Approx(1002.0));
    CHECK(clock.true_unix_s(1006.0) == Approx(1003.0));
    CHECK(replayed.clock("viner_2").true_unix_s(1006.0) == 1006.0);
    // In truth the row logged at 1006 stands a second after the one before.
    EstimatesAt estimates = replayed.at();
    EstimateRow row;
    REQUIRE(estimates.at(1002.5, row));
    CHECK(row.mass_kg == Approx(112.5));
}

TEST_CASE("Rows of a clock that was put back stand at their true times once they are taken again") {
    // Put back by 20 s at 1002: the rows until true 1022 say times that were there already.
    const Replayed replayed(kRows, "viner_1,clock_jump,0,1002.0,1002.0,-20.0\n");
    const LogClock clock = replayed.clock();
    CHECK(clock.true_unix_s(1001.9) == Approx(1001.9));
    CHECK(clock.true_unix_s(1002.1) == Approx(1022.1));
    EstimatesAt estimates = replayed.at();
    EstimateRow row;
    CHECK_FALSE(estimates.at(1006.0, row));
    REQUIRE(estimates.at(1026.0, row));
    CHECK(row.mass_kg == 120.0);
}

TEST_CASE("Every row of a log whose clock jumps twice is known by its true time") {
    Scenario scenario;
    scenario.machines.resize(1);
    scenario.machines[0].id = "viner_1";
    scenario.faults = {{FaultKind::clock_jump, "viner_1", 30.0, 0.0, 3.0},
                       {FaultKind::clock_jump, "viner_1", 60.0, 0.0, 10.0}};
    LogWriter log(scenario, scenario.machines[0]);
    Sensors sensors(scenario, scenario.machines[0]);
    for (int row = 0; row < 100; ++row) log.add(row, VinerTruth(), sensors);
    const TempFolder folder;
    std::filesystem::create_directory(folder / "truth");
    test::write_text(folder / "truth" / "faults.csv", true_faults_text(scenario));
    const LogClock clock(folder.path(), "viner_1");
    ColumnReader rows(folder.file("viner_1.csv", log.text()), {"unix_s"});
    double farthest_s = 0.0;
    for (int row = 0; rows.next(); ++row)
        farthest_s = std::max(farthest_s, std::abs(clock.true_unix_s(rows.number(0)) - row));
    CHECK(farthest_s < 1e-6);
}
