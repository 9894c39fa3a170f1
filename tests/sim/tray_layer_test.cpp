// Trays of a synthetic day: when they are laid, and what is counted in them.
#include "synth/write/tray_layer.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "log/column_reader.hpp"
#include "log/problem.hpp"
#include "support/temp_folder.hpp"
#include "synth/synthesis.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr double kSigmas = 5.0;
constexpr double kPerH = 15.0;

// Two machines that stop now and then in a large field.
Scenario day_with(double trays_per_h) {
    Scenario scenario;
    scenario.label = "Trays";
    scenario.date = "2025-06-27";
    scenario.time_zone = "Etc/UTC";
    scenario.start_unix_s = 1751032800;
    scenario.hours = 6.0;
    scenario.compressed = false;
    scenario.origin = {52.6, 2.9};
    ScenarioField field;
    field.name = "Long Acre";
    field.corners = {{0, 0}, {800, 0}, {800, 600}, {0, 600}};
    scenario.fields = {field};
    ScenarioMachine machine;
    machine.id = "viner_1";
    machine.trays_per_h = trays_per_h;
    machine.senses.rate_hz = 1.0;
    machine.driver.pauses_per_h = 4.0;
    scenario.machines = {machine, machine};
    scenario.machines[1].id = "viner_2";
    return scenario;
}

struct Tray {
    std::string machine;
    double at_s = 0.0;
    double count = 0.0;
};

std::vector<Tray> trays_of(const std::filesystem::path& day) {
    std::vector<Tray> trays;
    ColumnReader file(day / "tray_checks.csv", {"machine", "unix_s", "count"});
    while (file.next())
        trays.push_back({std::string(file.text(0)), file.number(1) - 1751032800.0, file.number(2)});
    return trays;
}

struct Second {
    bool harvesting = false;
    double lost_kgpm2 = 0.0;
    double harvested_s = 0.0;  // from the day's start
};

std::vector<Second> seconds_of(const std::filesystem::path& day, const std::string& machine) {
    std::vector<Second> seconds;
    ColumnReader file(day / "truth" / (machine + ".csv"), {"state", "standing_kgpm2", "loss_share"});
    double harvested_s = 0.0;
    while (file.next()) {
        const bool harvesting = file.text(0) == "harvesting";
        if (harvesting) harvested_s += 1.0;
        seconds.push_back({harvesting, file.number(1) * file.number(2), harvested_s});
    }
    return seconds;
}

// Lost along the last paces, the nearest most, as a tray stands for; by seconds, where the plant goes by
// tenths.
double lost_about(const std::vector<Second>& seconds, std::size_t at) {
    double sum = 0.0;
    double weights = 0.0;
    for (std::size_t back = 0; back < 30 && seconds[at - back].harvesting; ++back) {
        const double weight = std::exp(-static_cast<double>(back) / 6.0);
        sum += weight * seconds[at - back].lost_kgpm2;
        weights += weight;
    }
    return sum / weights;
}

VinerTruth truth_in(WorkState state) {
    VinerTruth truth;
    truth.state = state;
    truth.lost_kgpm2 = 0.04;
    return truth;
}

}  // namespace

TEST_CASE("Trays are laid as often in an hour of harvesting as told, only there, and never two alike") {
    const Scenario scenario = day_with(kPerH);
    const test::TempFolder folder;
    synthesise(scenario, folder / "day", nullptr);
    const std::vector<Tray> all = trays_of(folder / "day");
    double spread = 0.0;
    double bias = 0.0;
    for (const ScenarioMachine& machine : scenario.machines) {
        INFO(machine.id);
        const std::vector<Second> seconds = seconds_of(folder / "day", machine.id);
        const double hours = seconds.back().harvested_s / 3600.0;
        CHECK(hours > 3.0);
        CHECK(hours < 5.9);
        double number = 0.0;
        double last_s = -1e9;
        double closest_s = 1e9;
        double farthest_s = 0.0;
        for (const Tray& tray : all) {
            if (tray.machine != machine.id) continue;
            const Second& second = seconds[static_cast<std::size_t>(tray.at_s)];
            REQUIRE(second.harvesting);
            // 0.5 m2, 420 g a thousand.
            const double expected = lost_about(seconds, static_cast<std::size_t>(tray.at_s)) * 0.5 / 420e-6;
            const double off = tray.count / expected - 1.0;
            bias += off / static_cast<double>(all.size());
            spread += off * off / static_cast<double>(all.size());
            if (number > 0.0) {
                closest_s = std::min(closest_s, second.harvested_s - last_s);
                farthest_s = std::max(farthest_s, second.harvested_s - last_s);
            }
            last_s = second.harvested_s;
            ++number;
        }
        // Gaps spread evenly from half to one and a half of their mean: sd 0.29 of it.
        CHECK(number == Approx(kPerH * hours).margin(1.0 + kSigmas * 0.29 * std::sqrt(kPerH * hours)));
        const double mean_s = 3600.0 / kPerH;
        CHECK(closest_s >= 0.5 * mean_s - 1.0);
        CHECK(closest_s < 0.7 * mean_s);
        CHECK(farthest_s <= 1.5 * mean_s + 20.0);  // it waits until the machine has cut for some seconds
        CHECK(farthest_s > 1.3 * mean_s);
    }
    // Counted with the told error of 15 % and rounded: some 40 peas; seconds for tenths add some 10 %.
    const auto many = static_cast<double>(all.size());
    CHECK(many > 100.0);
    CHECK(bias == Approx(0.0).margin(kSigmas * 0.19 / std::sqrt(many)));
    CHECK(std::sqrt(spread) > 0.15 * (1.0 - kSigmas / std::sqrt(2.0 * many)));
    CHECK(std::sqrt(spread) < 0.19 * (1.0 + kSigmas / std::sqrt(2.0 * many)));
}

TEST_CASE("No trays unless told, and others do not change the named ones") {
    Scenario scenario = day_with(0.0);
    scenario.hours = 1.0;
    const test::TempFolder folder;
    synthesise(scenario, folder / "none", nullptr);
    CHECK_FALSE(std::filesystem::exists(folder.path() / "none" / "tray_checks.csv"));
    scenario.trays = {{"viner_1", 600.0}, {"viner_2", 700.0}, {"viner_1", 2000.0}};
    synthesise(scenario, folder / "named", nullptr);
    const std::vector<Tray> named = trays_of(folder / "named");
    REQUIRE(named.size() == 3);
    for (ScenarioMachine& machine : scenario.machines) machine.trays_per_h = 20.0;
    synthesise(scenario, folder / "more", nullptr);
    const std::vector<Tray> more = trays_of(folder / "more");
    CHECK(more.size() > 20);
    for (const Tray& tray : named) {
        CHECK(std::count_if(more.begin(), more.end(), [&tray](const Tray& other) {
                  return other.machine == tray.machine && other.at_s == tray.at_s &&
                         other.count == tray.count;
              }) == 1);
    }
    for (const char* file : {"viner_1.csv", "truth/viner_2.csv", "truth/totals.csv"}) {
        CHECK(test::text_of(folder.path() / "none" / file) == test::text_of(folder.path() / "more" / file));
    }
}

TEST_CASE("A machine left out does not change when the others' trays are laid") {
    Scenario both = day_with(kPerH);
    Scenario one = both;
    one.machines.erase(one.machines.begin());
    TrayLayer of_both(both);
    TrayLayer of_one(one);
    for (int i = 0; i < 36000; ++i) {
        const VinerTruth truth = truth_in(WorkState::harvesting);
        of_both.pass(0, i, truth, true);
        of_both.pass(1, i, truth, true);
        of_one.pass(0, i, truth, true);
    }
    std::map<std::string, std::vector<double>> laid_s;
    for (const LaidTray& tray : of_both.laid()) laid_s[tray.machine].push_back(tray.at_s);
    std::vector<double> alone_s;
    for (const LaidTray& tray : of_one.laid()) alone_s.push_back(tray.at_s);
    CHECK(alone_s.size() > 100);
    CHECK(laid_s["viner_2"] == alone_s);
    CHECK(laid_s["viner_1"] != alone_s);
}

TEST_CASE("A named tray waits until its machine harvests, and so do the others") {
    Scenario scenario = day_with(20.0);
    scenario.trays = {{"viner_1", 100.0}};
    TrayLayer layer(scenario);
    for (const WorkState state : {WorkState::stopped, WorkState::paused_in_crop, WorkState::turning,
                                  WorkState::tipping, WorkState::waiting, WorkState::travelling}) {
        for (int i = 0; i < 20000; ++i) layer.pass(0, 0.1 * i, truth_in(state), i % 10 == 0);
    }
    CHECK(layer.laid().empty());
    for (int i = 1; i <= 100; ++i) {
        layer.pass(0, 2000.0 + 0.1 * i, truth_in(WorkState::harvesting), false);
        layer.pass(1, 2000.0 + 0.1 * i, truth_in(WorkState::harvesting), false);
    }
    CHECK(layer.laid().empty());  // not before it has cut for some seconds
    for (int i = 1; i <= 25; ++i) layer.pass(0, 2010.0 + 0.1 * i, truth_in(WorkState::harvesting), false);
    REQUIRE(layer.laid().size() == 1);
    CHECK(layer.laid()[0].named);
    CHECK(layer.laid()[0].machine == "viner_1");
    CHECK(layer.laid()[0].at_s == Approx(2012.0).margin(0.5));
    CHECK(layer.laid()[0].lost_kgpm2 == Approx(0.04));
    // Its own time done, it is not laid again; the others come after at most the mean gap.
    for (int i = 1; i <= 180; ++i) layer.pass(0, 2001.0 + i, truth_in(WorkState::harvesting), true);
    REQUIRE(layer.laid().size() >= 2);
    CHECK_FALSE(layer.laid()[1].named);
}
