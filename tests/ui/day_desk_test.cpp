#include "day/day_desk.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "day/save_table.hpp"
#include "log/number.hpp"
#include "support/temp_folder.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells;
    std::stringstream stream(line + ',');
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    return cells;
}

}  // namespace

TEST_CASE("Charts are of the chosen machine, or of all in one") {
    DayDesk desk(shipped_day(), {});
    REQUIRE(desk.charts().size() == 5);
    CHECK(desk.charts()[0].lines.size() == 1);
    CHECK(desk.charts()[0].lines[0].name == "viner_1");
    desk.press({Key::m});
    CHECK(desk.charts()[0].lines[0].name == "viner_2");
    desk.press({Key::c});
    CHECK(desk.charts()[0].lines.size() == 3);
    CHECK(desk.ledger().count(LedgerKind::load) ==
          static_cast<int>(desk.day().result.machines[0].loads.size() +
                           desk.day().result.machines[1].loads.size() +
                           desk.day().result.machines[2].loads.size()));
    desk.press({Key::c});
    desk.press({Key::g});
    CHECK(desk.page() == ChartPage::losses);
    CHECK(desk.charts()[1].measure == Measure::drum_loss);
    desk.press({Key::g});
    CHECK(desk.page() == ChartPage::weighing);
    CHECK(desk.charts()[0].measure == Measure::harvested);
    desk.press({Key::g});
    desk.press({Key::g});
    CHECK(desk.page() == ChartPage::estimates);
}

TEST_CASE("Going to a row of the ledger moves all charts and the cursor there") {
    DayDesk desk(shipped_day(), {});
    desk.window().show({0.0, 600e3});
    const auto late = [&] {
        for (std::size_t i = 0; i < desk.rows().size(); ++i) {
            const double ms = static_cast<double>(desk.rows()[i].from_us - desk.day().series.origin_us) / 1e3;
            if (desk.rows()[i].kind == LedgerKind::stop && ms > 3600e3) return i;
        }
        return std::size_t{0};
    }();
    desk.choose(late);
    CHECK(desk.cursor_us() == desk.rows()[late].from_us / 1000 * 1000);
    CHECK(desk.window().shown().span_ms() == 600e3);
    CHECK(desk.window().shown().middle_ms() == Approx(*desk.window().cursor_ms()));
    desk.take_pane(DayPane::ledger);
    desk.press({Key::enter});
    const double lasted_ms = static_cast<double>(desk.rows()[late].to_us - desk.rows()[late].from_us) / 1e3;
    CHECK(desk.window().shown().span_ms() == Approx(lasted_ms + 240e3).margin(1.0));
    desk.press({Key::backspace});
    CHECK(desk.window().shown().span_ms() == 600e3);
    desk.press({Key::z, false, true});
    desk.press({Key::z, false, true});
    CHECK(desk.window().shown() == desk.window().whole());
}

TEST_CASE("Keys act on the pane that is chosen") {
    DayDesk desk(shipped_day(), {});
    desk.press({Key::up});
    CHECK(desk.window().shown().span_ms() < desk.window().whole().span_ms());
    CHECK_FALSE(desk.ledger().chosen().has_value());
    desk.press({Key::a});
    desk.press({Key::tab});
    desk.press({Key::tab});
    CHECK(desk.pane() == DayPane::ledger);
    desk.press({Key::down});
    CHECK(desk.ledger().chosen().has_value());
    CHECK(desk.window().shown() == desk.window().whole());
    desk.press({Key::d4});
    CHECK_FALSE(desk.ledger().seen(LedgerKind::alarm));
    desk.press({Key::f});
    CHECK(desk.whole());
    desk.press({Key::escape});
    CHECK_FALSE(desk.whole());
    desk.press({Key::tab});
    CHECK(desk.pane() == DayPane::charts);
    desk.press({Key::tab, true});
    CHECK(desk.pane() == DayPane::ledger);
}

TEST_CASE("What is saved as a table is what the charts show") {
    DayDesk desk(shipped_day(), {});
    desk.press({Key::m});
    desk.window().show({3600e3, 3660e3});
    std::istringstream table(table_of(desk));
    std::string line;
    REQUIRE(std::getline(table, line));
    CHECK(line ==
          "unix_s,machine,load_rate_kgps,load_rate_low_kgps,load_rate_high_kgps,yield_kgpm2,yield_low_kgpm2,"
          "yield_high_kgpm2,loss_share,loss_low_share,loss_high_share,hopper_kg,hopper_low_kg,hopper_high_kg,"
          "speed_mps");
    const MachineSeries& machine = desk.day().series.machines[1];
    const Column& rate = *machine.find(Measure::load_rate);
    const std::vector<Millis>& times = machine.times(rate);
    std::size_t at = index_from(times, 3600e3);
    const std::size_t end = index_from(times, 3660e3);
    std::size_t with_yield = 0;
    while (std::getline(table, line)) {
        const std::vector<std::string> cells = cells_of(line);
        REQUIRE(cells.size() == 15);
        if (!cells[5].empty()) ++with_yield;
        if (cells[2].empty()) continue;
        REQUIRE(at < end);
        CHECK(cells[1] == "viner_2");
        CHECK(sim::parse_number(cells[0]).value ==
              Approx(static_cast<double>(desk.day().series.time_us(times[at])) / 1e6).margin(1e-3));
        CHECK(static_cast<float>(sim::parse_number(cells[2]).value) == rate.value[at]);
        CHECK(static_cast<float>(sim::parse_number(cells[4]).value) == rate.band_at(at).high);
        ++at;
    }
    CHECK(at == end);
    CHECK(with_yield == Approx(120).margin(2));
}

TEST_CASE("A name that is taken is not taken again") {
    const test::TempFolder folder;
    DayDesk desk(shipped_day(), {});
    const auto first = free_name(folder.path(), desk, ".csv");
    CHECK(first.filename() == "podrate_2025-06-27_1500-1808_viner_1.csv");
    test::write_text(first, "x");
    CHECK(free_name(folder.path(), desk, ".csv").filename() == "podrate_2025-06-27_1500-1808_viner_1_2.csv");
    CHECK(free_name(folder.path(), desk, ".png").filename() == "podrate_2025-06-27_1500-1808_viner_1.png");
}

TEST_CASE("The map has keys of its own while it has the keys") {
    DayDesk desk(shipped_day(), {});
    REQUIRE(desk.map().has_value());
    desk.map()->window.resize(400.0, 300.0);
    desk.press({Key::tab});
    CHECK(desk.pane() == DayPane::map);
    const double all = desk.map()->window.shown().m_per_px;
    desk.press({Key::plus});
    CHECK(desk.map()->window.shown().m_per_px < all);
    CHECK(desk.window().shown() == desk.window().whole());
    desk.press({Key::backspace});
    CHECK(desk.map()->window.shown().m_per_px == all);
    desk.press({Key::y});
    CHECK(desk.map()->topic == MapTopic::loss);
}
