#include "series/load_series.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <tuple>

#include "log/machine_log.hpp"
#include "replay/day_replay.hpp"
#include "replay/machine_replay.hpp"
#include "series/chart.hpp"
#include "support/temp_folder.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

const char* const kShipped = PODRATE_SOURCE_DIR "/demo_logs/harrowmere";

// Everything that the replay tells, to hold columns against.
class Witness : public sim::ReplaySink {
  public:
    void on_row(const sim::LogRow& row, const Estimate& estimate) override {
        rows.push_back(row);
        estimates.push_back(estimate);
    }
    std::vector<sim::LogRow> rows;
    std::vector<Estimate> estimates;
};

const Column& need(const MachineSeries& machine, Measure measure) {
    const Column* column = machine.find(measure);
    REQUIRE(column != nullptr);
    return *column;
}

}  // namespace

TEST_CASE("Columns hold what a replay of the shipped day tells, row by row") {
    const DaySeries& series = shipped_series();
    const sim::Day day = sim::read_day(kShipped);
    REQUIRE(series.machines.size() == day.machines.size());
    const std::size_t index = 1;
    Witness witness;
    sim::replay_machine(day.machines[index], {&witness}, nullptr);
    const MachineSeries& machine = series.machines[index];
    CHECK(machine.id == day.machines[index].id);
    CHECK(machine.rows_left_out == 0);
    REQUIRE(machine.kept_ms.size() == witness.rows.size());
    const Column& rate = need(machine, Measure::load_rate);
    const Column& loss = need(machine, Measure::loss);
    const Column& harvested = need(machine, Measure::harvested);
    REQUIRE(rate.every_row);
    REQUIRE(rate.sd.size() == witness.rows.size());
    bool same = true;
    std::size_t told = 0;
    for (std::size_t i = 0; i < witness.rows.size(); ++i) {
        const Estimate& e = witness.estimates[i];
        same = same && machine.kept_ms[i] == (witness.rows[i].time_us - series.origin_us) / 1000;
        same = same && rate.value[i] == static_cast<float>(e.flow_kgps);
        same = same && rate.sd[i] == static_cast<float>(e.flow_sd_kgps);
        // Yield and loss are told twice a second.
        if (told < loss.size() && machine.times(loss)[told] == machine.kept_ms[i]) {
            same = same && loss.low[told] == static_cast<float>(e.loss_low);
            ++told;
        }
        same = same && harvested.value[i] == static_cast<float>(e.harvested_kg);
        const double at_ms = machine.kept_ms[i];
        same = same && machine.step(StepMeasure::alarms).at(at_ms).has_value();
        // Rows of one moment: the last of them holds.
        if (i + 1 < witness.rows.size() && machine.kept_ms[i + 1] > machine.kept_ms[i]) {
            same = same && machine.step_at(StepMeasure::state, at_ms) == static_cast<std::uint16_t>(e.state);
            same = same && machine.step_at(StepMeasure::alarms, at_ms) == e.alarms;
        }
    }
    CHECK(same);
    CHECK(told == loss.size());
    CHECK(loss.size() == Approx(2.0e-3 * machine.kept_ms.back()).epsilon(0.01));
}

TEST_CASE("A channel has the samples of the log at the log's times") {
    const DaySeries& series = shipped_series();
    const sim::Day day = sim::read_day(kShipped);
    Witness witness;
    sim::replay_machine(day.machines[0], {&witness}, nullptr);
    const MachineSeries& machine = series.machines[0];
    for (const auto& [column, measure] : {std::pair(sim::Column::speed_mps, Measure::speed),
                                          std::pair(sim::Column::pitch_deg, Measure::pitch),
                                          std::pair(sim::Column::hopper_kg, Measure::weight)}) {
        const Column& held = need(machine, measure);
        const std::vector<Millis>& times = machine.times(held);
        std::size_t next = 0;
        bool same = true;
        for (const sim::LogRow& row : witness.rows) {
            if (!row.holds(column)) continue;
            REQUIRE(next < held.size());
            same = same && held.value[next] == static_cast<float>(row[column]);
            same = same && times[next] == (row.time_us - series.origin_us) / 1000;
            ++next;
        }
        CHECK(same);
        CHECK(next == held.size());
        CHECK(held.size() > 1000);
    }
    CHECK(need(machine, Measure::weight).every_row);
    CHECK_FALSE(need(machine, Measure::pitch).every_row);
    CHECK(machine.find(Measure::cell_1) == nullptr);
}

TEST_CASE("Hits become a rate between counts and a count set back begins anew") {
    const test::TempFolder folder;
    std::string text = "unix_s,hopper_kg,speed_mps,reel_on,loss_hits\n";
    const char* const counts[] = {"10", "", "14", "2", "12"};
    for (int i = 0; i < 5; ++i) text += std::to_string(1751032800 + i) + ",100.0,0.0,0," + counts[i] + '\n';
    const std::filesystem::path log = folder.file("m.csv", text);
    const std::atomic<bool> cancel{false};
    const auto open = open_day(sim::day_of_one_log(log, 3.3), nullptr, cancel);
    REQUIRE(open);
    const DaySeries* const series = &open->series;
    const Column& hits = need(series->machines[0], Measure::hit_rate);
    CHECK(hits.value == std::vector<float>{2.0F, 10.0F});
    CHECK(series->machines[0].times(hits) == std::vector<Millis>{2000, 4000});
}

TEST_CASE("A load that is called off leaves nothing and the next is whole") {
    const sim::Day day = sim::read_day(kShipped);
    const double at = GENERATE(0.0, 0.2, 0.9);
    INFO("called off at " << at);
    std::atomic<bool> cancel{at == 0.0};
    const auto none = open_day(
        day, [&](double share) { cancel = cancel || share >= at; }, cancel);
    CHECK(none == nullptr);
    cancel = false;
    double reached = 0.0;
    const auto whole = open_day(
        day, [&](double share) { reached = share; }, cancel);
    REQUIRE(whole);
    CHECK(reached == 1.0);
    CHECK(whole->series.machines[0].kept_ms == shipped_series().machines[0].kept_ms);
    CHECK(whole->series.bytes() == shipped_series().bytes());
}

TEST_CASE("A log that is refused leaves its machine bare and says why") {
    sim::Day day = sim::read_day(kShipped);
    day.machines[0].log = "/nowhere/viner_1.csv";
    const std::atomic<bool> cancel{false};
    const auto open = open_day(day, nullptr, cancel);
    REQUIRE(open);
    const DaySeries* const series = &open->series;
    CHECK(series->machines[0].columns.empty());
    CHECK_FALSE(series->machines[0].refusal.empty());
    CHECK(series->machines[0].id == day.machines[0].id);
    CHECK(series->machines[1].refusal.empty());
    CHECK(chart_of(*series, Measure::load_rate, {}).lines.size() == day.machines.size() - 1);
}

TEST_CASE("Readings at a moment are the newest samples, with units, and none in a gap") {
    const MachineSeries& machine = shipped_series().machines[0];
    const Column& rate = need(machine, Measure::load_rate);
    const std::size_t index = machine.kept_ms.size() / 2;
    const auto reading = reading_at(machine, rate, machine.kept_ms[index] + 0.5);
    REQUIRE(reading);
    CHECK(reading->value == rate.value[index]);
    CHECK(reading->band.low == rate.band_at(index).low);
    CHECK(reading->figures({}, true).find(" (") != std::string::npos);
    CHECK_FALSE(reading_at(machine, rate, machine.kept_ms.front() - 1.0).has_value());
    CHECK(reading_at(machine, rate, machine.kept_ms.back() + 10000.0).has_value());
    CHECK_FALSE(reading_at(machine, rate, machine.kept_ms.back() + 10001.0).has_value());
    CHECK_FALSE(machine.step_at(StepMeasure::state, machine.kept_ms.back() + 10001.0).has_value());
}

TEST_CASE("A wide doubt does not press a chart's line flat") {
    MachineSeries machine;
    Column column(Measure::yield);
    for (int i = 0; i < 100; ++i) {
        machine.kept_ms.push_back(100 * i);
        column.add(machine.kept_ms, true, 100 * i, i % 2 == 0 ? 0.4F : 0.6F);
        column.sd.push_back(100.0F);
    }
    column.seal(machine.kept_ms);
    machine.columns.push_back(column);
    Chart chart = bare_chart(Measure::yield, {});
    chart.lines = {{&machine, &machine.columns[0], "viner_1"}};
    ChartPicture picture;
    TimeWindow window({0.0, 10000.0});
    make_picture(chart, window, 500, 6, picture);
    CHECK(picture.axis.low == 0.0);
    CHECK(picture.axis.high == Approx(15.0).margin(5.0));
    CHECK_FALSE(picture.at_cursor[0].has_value());
    window.set_cursor(150.0);
    make_picture(chart, window, 500, 6, picture);
    REQUIRE(picture.at_cursor[0].has_value());
    CHECK(picture.at_cursor[0]->value == 0.6F);
}
