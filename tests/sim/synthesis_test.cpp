// The truth of a synthetic day keeps its books.
#include <catch2/catch.hpp>
#include <cmath>

#include "log/column_reader.hpp"
#include "support/temp_folder.hpp"
#include "synth/machine/gang.hpp"
#include "synth/machine/viner.hpp"
#include "synth/synthesis.hpp"

using namespace podrate;
using sim::Scenario;

namespace fs = std::filesystem;

namespace {

const fs::path kDemo = fs::path(PODRATE_SOURCE_DIR) / "demo_logs";
constexpr double kStepS = 0.1;

// Sums over a machine's day, from its truth at each step.
struct Books {
    double cut_kg = 0.0;       // standing where it was cut
    double integral_kg = 0.0;  // of the flow
    double tipped_kg = 0.0;
    double lowest_kg = 0.0;
    double highest_share = 0.0;  // of the hopper's capacity
    sim::VinerTruth last;
};

std::vector<Books> work_through(const Scenario& scenario) {
    sim::Gang gang(scenario);
    std::vector<sim::Viner> viners;
    for (std::size_t i = 0; i < scenario.machines.size(); ++i) {
        viners.emplace_back(scenario, scenario.machines[i], i, kStepS, gang);
    }
    std::vector<Books> books(viners.size());
    const long steps = std::lround(scenario.hours * 36000.0);
    for (long step = 0; step < steps; ++step) {
        const double time_s = static_cast<double>(step) / 10.0;
        gang.update(time_s);
        for (std::size_t i = 0; i < viners.size(); ++i) {
            Books& b = books[i];
            const double area_before = viners[i].truth().area_m2;
            viners[i].step(time_s, gang);
            const sim::VinerTruth& truth = viners[i].truth();
            b.cut_kg += (truth.area_m2 - area_before) * truth.standing_kgpm2;
            b.integral_kg += truth.flow_kgps * kStepS;
            b.lowest_kg = std::min(b.lowest_kg, truth.mass_kg);
            b.highest_share =
                std::max(b.highest_share, truth.mass_kg / scenario.machines[i].hopper_capacity_kg);
            b.last = truth;
        }
    }
    for (std::size_t i = 0; i < viners.size(); ++i) {
        for (const sim::TrueLoad& load : viners[i].loads()) books[i].tipped_kg += load.net_kg;
    }
    return books;
}

}  // namespace

TEST_CASE("In the shipped scenario each machine's harvest is its loads and what is left in the hopper") {
    const Scenario scenario = sim::read_scenario(kDemo / "harrowmere.toml");
    const std::vector<Books> books = work_through(scenario);
    REQUIRE(books.size() == 3);
    for (std::size_t i = 0; i < books.size(); ++i) {
        INFO(scenario.machines[i].id);
        const Books& b = books[i];
        CHECK(b.last.harvested_kg > 5000.0);
        // All hoppers start empty; the day may end in the middle of a tip, whose peas are in no load yet.
        CHECK(b.last.state != WorkState::tipping);
        CHECK(b.tipped_kg + b.last.mass_kg == Approx(b.last.harvested_kg).epsilon(1e-9));
        CHECK(b.integral_kg == Approx(b.last.harvested_kg).epsilon(1e-12));
        CHECK(b.lowest_kg >= 0.0);
        // It stops at 97 %; what is in the drum then still comes.
        CHECK(b.highest_share < 1.05);
    }
}

TEST_CASE("In the shipped scenario what was cut was harvested or lost or is in the drum") {
    const Scenario scenario = sim::read_scenario(kDemo / "harrowmere.toml");
    for (const Books& b : work_through(scenario)) {
        const double in_drum_kg = b.cut_kg - b.last.harvested_kg - b.last.lost_kg;
        // Dead time and lag together are under 15 s, at no more than 3 kg/s.
        CHECK(in_drum_kg >= -1e-6);
        CHECK(in_drum_kg < 45.0);
        CHECK(b.last.lost_kg > 0.04 * b.cut_kg);
    }
}

TEST_CASE("The truth files of the shipped day agree with each other") {
    const fs::path truth = kDemo / "harrowmere" / "truth";
    sim::ColumnReader totals(truth / "totals.csv", {"machine", "harvested_kg"});
    int machines = 0;
    while (totals.next()) {
        ++machines;
        const std::string id(totals.text(0));
        double loads_kg = 0.0;
        sim::ColumnReader loads(truth / "loads.csv", {"machine", "net_kg"});
        while (loads.next()) {
            if (loads.text(0) == id) loads_kg += loads.number(1);
        }
        double mass_kg = 0.0;
        double flow_kgps = 0.0;
        sim::ColumnReader seconds(truth / (id + ".csv"), {"mass_kg", "flow_kgps"});
        while (seconds.next()) {
            mass_kg = seconds.number(0);
            flow_kgps = seconds.number(1);
        }
        INFO(id);
        // The last second of truth stands 0.9 s before the day's last step; loads are rounded to 0.01 kg.
        CHECK(loads_kg + mass_kg + 0.9 * flow_kgps == Approx(totals.number(1)).margin(0.3));
    }
    CHECK(machines == 3);
}

TEST_CASE("Another seed makes another day and the same seed the same") {
    Scenario scenario = sim::read_scenario(kDemo / "harrowmere.toml");
    scenario.hours = 0.2;
    scenario.compressed = false;
    const test::TempFolder folder;
    sim::synthesise(scenario, folder / "one", nullptr);
    sim::synthesise(scenario, folder / "same", nullptr);
    scenario.seed += 1;
    sim::synthesise(scenario, folder / "other", nullptr);
    for (const char* file : {"viner_1.csv", "truth/viner_1.csv"}) {
        const std::string one = test::text_of(folder.path() / "one" / file);
        CHECK(one == test::text_of(folder.path() / "same" / file));
        CHECK(one != test::text_of(folder.path() / "other" / file));
    }
}

TEST_CASE("A machine left out does not change the noise of the others") {
    Scenario scenario = sim::read_scenario(kDemo / "harrowmere.toml");
    scenario.hours = 0.05;
    scenario.compressed = false;
    scenario.events.clear();
    scenario.trays.clear();
    const test::TempFolder folder;
    sim::synthesise(scenario, folder / "three", nullptr);
    scenario.machines.resize(1);
    sim::synthesise(scenario, folder / "one", nullptr);
    CHECK(test::text_of(folder.path() / "three" / "viner_1.csv") ==
          test::text_of(folder.path() / "one" / "viner_1.csv"));
}
