// The loss sensor's count in the log of a synthetic day, beside the truth that it counts.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "log/column_reader.hpp"
#include "read_log.hpp"
#include "support/temp_folder.hpp"
#include "synth/machine/gang.hpp"
#include "synth/machine/viner.hpp"
#include "synth/synthesis.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

// Five standard deviations of chance: with fixed seeds the outcome is fixed too, so these hold or do not.
constexpr double kSigmas = 5.0;
constexpr double kStepS = 0.1;

Scenario small_day() {
    Scenario scenario;
    scenario.label = "Quarter day";
    scenario.date = "2025-06-27";
    scenario.time_zone = "Etc/UTC";
    scenario.start_unix_s = 1751032800;
    scenario.hours = 0.5;
    scenario.compressed = false;
    scenario.origin = {52.6, 2.9};
    ScenarioField field;
    field.name = "Long Acre";
    field.corners = {{0, 0}, {300, 0}, {300, 200}, {0, 200}};
    field.lodged_share = 0.2;
    scenario.fields = {field};
    ScenarioMachine machine;
    machine.id = "viner_1";
    scenario.machines = {machine, machine};
    scenario.machines[1].id = "viner_2";
    scenario.machines[1].cells_apart = true;
    return scenario;
}

// The text without the last cell of each line.
std::string without_last_column(const std::string& text) {
    std::istringstream lines(text);
    std::string line;
    std::string out;
    while (std::getline(lines, line)) out += line.substr(0, line.rfind(',')) + '\n';
    return out;
}

// Hits expected of each machine over its day, from the truth at each step.
std::vector<double> expected_hits(const Scenario& scenario) {
    Gang gang(scenario);
    std::vector<Viner> viners;
    for (std::size_t i = 0; i < scenario.machines.size(); ++i)
        viners.emplace_back(scenario, scenario.machines[i], i, kStepS, gang);
    std::vector<double> expected(viners.size(), 0.0);
    const long steps = std::lround(scenario.hours * 36000.0);
    for (long step = 0; step < steps; ++step) {
        const double time_s = static_cast<double>(step) / 10.0;
        gang.update(time_s);
        for (std::size_t i = 0; i < viners.size(); ++i) {
            viners[i].step(time_s, gang);
            const ScenarioHits& hits = scenario.machines[i].hits;
            const VinerTruth& truth = viners[i].truth();
            expected[i] +=
                (hits.per_kg * truth.drum_lost_kgps + hits.false_per_kg * truth.feed_kgps) * kStepS;
        }
    }
    return expected;
}

std::string first_line(const std::string& text) {
    return text.substr(0, text.find('\n'));
}

}  // namespace

TEST_CASE("Without the key there is no count in a log, and with it the rest of the day stays as it is") {
    Scenario scenario = small_day();
    const test::TempFolder folder;
    synthesise(scenario, folder / "plain", nullptr);
    scenario.truth_apart = true;
    for (ScenarioMachine& machine : scenario.machines) machine.hits.per_kg = 250.0;
    synthesise(scenario, folder / "counted", nullptr);
    for (const char* file : {"viner_1.csv", "viner_2.csv", "truth/viner_1.csv", "truth/viner_2.csv"}) {
        INFO(file);
        const std::string plain_text = test::text_of(folder.path() / "plain" / file);
        const std::string counted = test::text_of(folder.path() / "counted" / file);
        const bool truth = std::string(file).rfind("truth", 0) == 0;
        const std::string column = truth ? ",drum_loss_share" : ",loss_hits";
        CHECK(first_line(plain_text).find(column) == std::string::npos);
        CHECK(first_line(counted) == first_line(plain_text) + column);
        CHECK(without_last_column(counted) == plain_text);
    }
    const std::string model = "truth/model.json";
    CHECK(test::text_of(folder.path() / "plain" / model).find("hits") == std::string::npos);
    CHECK(test::text_of(folder.path() / "counted" / model).find("\"hits_per_kg\": 250.0") !=
          std::string::npos);
}

TEST_CASE("A log's count never falls and comes to what the truth says was lost in the drum") {
    Scenario scenario = small_day();
    scenario.truth_apart = true;
    // Nothing missed, nothing late, an even gain.
    const ScenarioHits even = {2000.0, 0.5, 0.0, 0.0, 0.0};
    for (ScenarioMachine& machine : scenario.machines) machine.hits = even;
    scenario.machines[0].senses.rate_hz = 25.0;
    scenario.machines[1].senses.rate_hz = 1.0;
    const test::TempFolder folder;
    synthesise(scenario, folder / "day", nullptr);
    const std::vector<double> expected = expected_hits(scenario);
    for (std::size_t i = 0; i < 2; ++i) {
        const std::string id = scenario.machines[i].id;
        INFO(id);
        const test::ReadLog log = test::read_log_file(folder.path() / "day" / (id + ".csv"));
        CHECK(log.rows_bad == 0);
        double hits = 0.0;
        long given = 0;
        for (const LogRow& row : log.rows) {
            if (!row.holds(Column::loss_hits)) continue;
            ++given;
            REQUIRE(row[Column::loss_hits] >= hits);
            hits = row[Column::loss_hits];
            REQUIRE(hits == std::floor(hits));
        }
        // Some 5 Hz, or each row of a slower log.
        CHECK(given == (i == 0 ? 9000 : 1800));
        CHECK(expected[i] > 20000.0);
        CHECK(hits == Approx(expected[i]).margin(kSigmas * std::sqrt(expected[i])));
    }
}

TEST_CASE("The truth tells the drum's part of the loss, and the rest is what the reel leaves") {
    Scenario scenario = small_day();
    scenario.truth_apart = true;
    const test::TempFolder folder;
    synthesise(scenario, folder / "day", nullptr);
    ColumnReader truth(folder.path() / "day" / "truth" / "viner_1.csv", {"loss_share", "drum_loss_share"});
    double picking_low = 1.0;
    double picking_high = 0.0;
    double drum_high = 0.0;
    while (truth.next()) {
        const double picking = truth.number(0) - truth.number(1);
        picking_low = std::min(picking_low, picking);
        picking_high = std::max(picking_high, picking);
        drum_high = std::max(drum_high, truth.number(1));
    }
    // Of upright crop 4 %, of crop that lies flat 15 % of the rest besides; to five decimals.
    CHECK(picking_low == Approx(0.04).margin(1.1e-5));
    CHECK(picking_high == Approx(1.0 - 0.96 * 0.85).margin(0.01));
    CHECK(drum_high > 0.035);
}

TEST_CASE("Keys of the sensor are read, and refused out of their range") {
    const test::TempFolder folder;
    const auto read = [&folder](const std::string& top, const std::string& of_machine) {
        return read_scenario(folder.file(
            "day.toml",
            "label = \"T\"\ndate = 2025-06-27\nseed = 1\nstart_unix_s = 0\nhours = 1\norigin_lat_deg = 52\n"
            "origin_lon_deg = 3\n" +
                top +
                "\n[[field]]\nname = \"Long Acre\"\ncorners_m = [[0, 0], [300, 0], [300, 200], [0, 200]]\n"
                "[[machine]]\nid = \"viner_1\"\n" +
                of_machine + "\n"));
    };
    const Scenario bare = read("", "");
    CHECK_FALSE(bare.truth_apart);
    CHECK(bare.machines[0].trays_per_h == 0.0);
    CHECK(bare.machines[0].hits.per_kg == 0.0);
    CHECK(bare.machines[0].hits.false_per_kg == 0.0);
    CHECK(bare.machines[0].hits.delay_s == 4.0);
    CHECK(bare.machines[0].hits.dead_time_s == 0.0005);
    CHECK(bare.machines[0].hits.gain_sd == 0.1);
    const Scenario told = read("truth_apart = true",
                               "hits_per_kg = [200, 300]\nhits_false_per_kg = 0.2\nhits_delay_s = 3\n"
                               "hits_dead_time_s = 0.001\nhits_gain_sd = 0.05\ntrays_per_h = 2");
    CHECK(told.truth_apart);
    CHECK(told.machines[0].trays_per_h == 2.0);
    CHECK(told.machines[0].hits.per_kg > 200.0);
    CHECK(told.machines[0].hits.per_kg < 300.0);
    CHECK(told.machines[0].hits.false_per_kg == 0.2);
    CHECK(told.machines[0].hits.delay_s == 3.0);
    CHECK(told.machines[0].hits.dead_time_s == 0.001);
    CHECK(told.machines[0].hits.gain_sd == 0.05);
    for (const std::string bad :
         {"hits_per_kg = -1", "hits_per_kg = 10001", "hits_false_per_kg = 101", "hits_delay_s = 31",
          "hits_dead_time_s = 0.2", "hits_gain_sd = 0.6", "trays_per_h = 21", "trays_per_h = nan"}) {
        INFO(bad);
        CHECK_THROWS_AS(read("", bad), RefusedInput);
    }
    for (const std::string bad : {"truth_apart = 1", "truth_apart = \"yes\""})
        CHECK_THROWS_AS(read(bad, ""), RefusedInput);
}

TEST_CASE("The same seed counts the same hits in a log and another seed others") {
    Scenario scenario = small_day();
    scenario.hours = 0.2;
    scenario.machines.resize(1);
    scenario.machines[0].hits.per_kg = 250.0;
    const test::TempFolder folder;
    const auto log_of = [&](const std::string& name) {
        synthesise(scenario, folder / name, nullptr);
        return test::text_of(folder.path() / name / "viner_1.csv");
    };
    const std::string one = log_of("one");
    CHECK(one == log_of("same"));
    scenario.seed = 2;
    CHECK(one != log_of("other"));
}
