#include "day/ledger.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "hours/stop_list.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

std::size_t of_kind(const std::vector<LedgerRow>& rows, LedgerKind kind) {
    return static_cast<std::size_t>(
        std::count_if(rows.begin(), rows.end(), [kind](const LedgerRow& row) { return row.kind == kind; }));
}

// Kinds in turn, a minute apart, of machines 0 and 1 in turn.
std::vector<LedgerRow> some_rows(int count) {
    std::vector<LedgerRow> rows;
    for (int i = 0; i < count; ++i) {
        LedgerRow row;
        row.kind = static_cast<LedgerKind>(i % kLedgerKinds);
        row.machine = static_cast<std::size_t>(i % 2);
        row.from_us = row.to_us = i * 60 * kSecondUs;
        rows.push_back(row);
    }
    return rows;
}

}  // namespace

TEST_CASE("The ledger holds all that the replay found, in order of time") {
    const OpenDay& day = *shipped_day();
    const std::vector<LedgerRow> rows = ledger_of(day, {}, {});
    std::size_t loads = 0;
    std::size_t stops = 0;
    std::size_t alarms = 0;
    for (const sim::MachineResult& machine : day.result.machines) {
        loads += machine.loads.size();
        stops += sim::stops_of(machine.id, machine.stretches, day.day.hours.stop_least_s).size();
        alarms += machine.alarms.size();
    }
    CHECK(loads > 15);
    CHECK(of_kind(rows, LedgerKind::load) == loads);
    CHECK(of_kind(rows, LedgerKind::stop) == stops);
    CHECK(of_kind(rows, LedgerKind::alarm) == alarms);
    CHECK(of_kind(rows, LedgerKind::tray) == day.day.tray_checks.size());
    CHECK(of_kind(rows, LedgerKind::reading) == day.day.maturity.size());
    CHECK(of_kind(rows, LedgerKind::heap) > 0);
    CHECK(std::is_sorted(rows.begin(), rows.end(),
                         [](const LedgerRow& a, const LedgerRow& b) { return a.from_us < b.from_us; }));
}

TEST_CASE("A row says when, what and how much, in the user's words and units") {
    const OpenDay& day = *shipped_day();
    const auto first_load = [&](const Speech& say) {
        const std::vector<LedgerRow> rows = ledger_of(day, {}, say);
        return *std::find_if(rows.begin(), rows.end(), [](const LedgerRow& row) {
            return row.kind == LedgerKind::load && row.machine == 1U;
        });
    };
    CHECK(first_load({}).clock == "15:25");
    CHECK(first_load({}).what == "Load 1");
    CHECK(first_load({}).figure == "1.96 t \xC2\xB1 6 kg");
    const LedgerRow german = first_load({Language::german, Units::us});
    CHECK(german.what == "Bunker 1");
    CHECK(german.figure.find(" lb \xC2\xB1 ") != std::string::npos);
    // Of another day, its date.
    const std::vector<LedgerRow> rows = ledger_of(day, {}, {});
    CHECK(rows.front().kind == LedgerKind::reading);
    CHECK(rows.front().clock == "06-24");
    CHECK_FALSE(rows.front().machine.has_value());
}

TEST_CASE("Kinds and machines are sifted, and counted whether seen or not") {
    const std::vector<LedgerRow> rows = some_rows(60);
    LedgerWindow window;
    window.fill(rows, std::nullopt, 0);
    CHECK(window.shown().size() == 60);
    window.toggle(LedgerKind::alarm);
    CHECK(window.shown().size() == 50);
    CHECK(window.count(LedgerKind::alarm) == 10);
    CHECK_FALSE(window.seen(LedgerKind::alarm));
    window.toggle(LedgerKind::alarm);
    window.fill(rows, 1, 0);
    CHECK(window.shown().size() == 30);
    for (const std::size_t row : window.shown()) CHECK(rows[row].machine == 1U);
    CHECK(window.count(LedgerKind::alarm) == 10);
    CHECK(window.count(LedgerKind::load) == 0);
}

TEST_CASE("The chosen row is kept on the screen, and scrolling lets it go") {
    const std::vector<LedgerRow> rows = some_rows(100);
    LedgerWindow window;
    window.fill(rows, std::nullopt, 30 * 60 * kSecondUs);
    CHECK(window.top(10) == 30);
    window.choose(50);
    CHECK(window.top(10) == 41);
    window.step(1);
    CHECK(window.chosen() == 51U);
    CHECK(window.top(10) == 42);
    window.step(-1000);
    CHECK(window.chosen() == 0U);
    CHECK(window.top(10) == 0);
    window.step(1000);
    CHECK(window.chosen() == 99U);
    CHECK(window.top(10) == 90);
    window.scroll(-40, 10);
    CHECK(window.top(10) == 50);
    window.scroll(1000, 10);
    CHECK(window.top(10) == 90);
    window.toggle(rows[99].kind);
    CHECK_FALSE(window.chosen().has_value());
    CHECK(window.top(200) == 0);
}
