// What is typed in a form, and what comes of it in the day's files and estimates.
#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "day/day_desk.hpp"
#include "day/local_time.hpp"
#include "report/loss_figures.hpp"
#include "support/temp_folder.hpp"
#include "typed/entry_form.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

void type(EntryForm& form, const std::string& text) {
    for (const char sign : text) form.type(static_cast<unsigned char>(sign));
}

void type(DayDesk& desk, const std::string& text) {
    for (const char sign : text) desk.type(static_cast<unsigned char>(sign));
}

TimeUs at(const char* clock) {
    return *sim::local_moment("2025-06-27", clock, "Europe/London");
}

void wait_for_run(DayDesk& desk) {
    while (desk.rerunning()) std::this_thread::sleep_for(std::chrono::milliseconds(1));
    desk.refresh();
}

std::string day_text() {
    return "label = \"Two\"\ndate = 2025-06-27\ntime_zone = \"Europe/London\"\n"
           "[[machine]]\nid = \"viner_1\"\nlog = \"viner_1.csv\"\nwidth_m = 3.3\n";
}

}  // namespace

TEST_CASE("A tray check is what was counted, over its area") {
    EntryForm form(EntryKind::tray, shipped_day()->day, "viner_2", at("16:30"), {});
    CHECK(form.lines()[0].line.text() == "16:30:00");
    CHECK(form.active() == 1);
    type(form, "54");
    form.press({Key::enter});
    form.press({Key::enter});
    form.press({Key::enter});
    REQUIRE(form.done());
    CHECK(form.tray().check.machine == "viner_2");
    CHECK(form.tray().check.unix_s == static_cast<double>(at("16:30")) / 1e6);
    // 108 peas/m2 of 420 g a thousand.
    CHECK(form.tray().check.kg_per_ha == Approx(108.0 * 420.0 / 100.0));
}

TEST_CASE("A form says what is wrong and goes to that line") {
    EntryForm form(EntryKind::tray, shipped_day()->day, "viner_2", at("16:30"), {Language::german});
    for (int i = 0; i < 3; ++i) form.press({Key::enter});
    CHECK_FALSE(form.done());
    CHECK(form.active() == 1);
    CHECK(form.refusal() ==
          "Gezählte Erbsen: eine Zahl, 0\xE2\x80\x93"
          "100000");
    type(form, "40");
    CHECK(form.refusal().empty());
    form.press({Key::up});
    type(form, "noon");
    for (int i = 0; i < 4; ++i) form.press({Key::enter});
    CHECK(form.active() == 0);
    CHECK_FALSE(form.refusal().empty());
    form.press({Key::escape});
    CHECK(form.closed());
    CHECK_FALSE(form.done());
}

TEST_CASE("A reading is of one of the day's fields, or of another") {
    EntryForm form(EntryKind::reading, shipped_day()->day, "viner_2", at("16:30"), {});
    CHECK(form.lines()[1].line.text() == "Larkrise Forty");
    form.press({Key::up});
    form.press({Key::right});
    CHECK(form.lines()[1].line.text() == "Mill Dyke");
    form.press({Key::left});
    CHECK(form.lines()[1].line.text() == "Larkrise Forty");
    type(form, "Far End");
    form.press({Key::enter});
    type(form, "104,5");
    form.press({Key::enter});
    REQUIRE(form.done());
    CHECK(form.reading().field == "Far End");
    CHECK(form.reading().tenderometer == 104.5);
    // A time before the moment at hand is of the same day.
    EntryForm earlier(EntryKind::reading, shipped_day()->day, "viner_2", at("16:30"), {});
    earlier.press({Key::up});
    earlier.press({Key::up});
    type(earlier, "10:15");
    earlier.press({Key::down});
    earlier.press({Key::down});
    type(earlier, "99");
    earlier.press({Key::enter});
    REQUIRE(earlier.done());
    CHECK(earlier.reading().unix_s == static_cast<double>(at("10:15")) / 1e6);
}

TEST_CASE("What was typed is added to the day's files in their own columns") {
    const test::TempFolder folder;
    test::write_text(folder / "day.toml", day_text());
    test::write_text(folder / "tray_checks.csv",
                     "machine,unix_s,who,count,area_m2,thousand_pea_g\r\nviner_1,1751034300,Ada,54,0.5,420");
    TypedRows rows;
    TypedTray tray;
    tray.count = 40.0;
    tray.area_m2 = 0.25;
    tray.thousand_pea_g = 400.0;
    tray.check = {1751038000.0, "viner_1", sim::ground_kg_per_ha(40.0, 0.25, 400.0),
                  sim::tray_sd_share(40.0)};
    rows.trays.push_back(tray);
    rows.readings.push_back({1751038000.0, "Far \"End\", east", 101.5});
    CHECK(write_typed(folder.path(), rows).size() == 2);
    CHECK(rows.empty());
    CHECK(test::text_of(folder / "tray_checks.csv") ==
          "machine,unix_s,who,count,area_m2,thousand_pea_g\r\nviner_1,1751034300,Ada,54,0.5,420\r\n"
          "viner_1,1751038000.0,,40,0.25,400\r\n");
    const sim::Day day = sim::read_day(folder.path());
    REQUIRE(day.machines[0].trays.size() == 2);
    CHECK(day.machines[0].trays[1].kg_per_ha == Approx(tray.check.kg_per_ha));
    CHECK(day.machines[0].trays[1].sd_share == Approx(tray.check.sd_share));
    REQUIRE(day.maturity.size() == 1);
    CHECK(day.maturity[0].field == "Far \"End\", east");
    CHECK(day.maturity[0].tenderometer == 101.5);
    // By mass where that is what the file has; refused, and kept, where it has neither.
    test::write_text(folder / "tray_checks.csv", "unix_s,machine,kg_per_ha\n");
    rows.trays.push_back(tray);
    write_typed(folder.path(), rows);
    CHECK(sim::read_day(folder.path()).machines[0].trays[0].kg_per_ha == Approx(tray.check.kg_per_ha));
    test::write_text(folder / "tray_checks.csv", "unix_s,mass\n");
    rows.trays.push_back(tray);
    CHECK_THROWS_AS(write_typed(folder.path(), rows), sim::RefusedInput);
    CHECK(rows.trays.size() == 1);
    CHECK(test::text_of(folder / "tray_checks.csv") == "unix_s,mass\n");
}

TEST_CASE("A tray typed in changes the estimate as one in the day's file does, and is taken back") {
    DayDesk desk(shipped_day(), {});
    desk.look_at(1, at("16:20"));
    const double before = sim::loss_parts(desk.day().result.machines[1]).total.share;
    desk.press({Key::t});
    REQUIRE(desk.typing());
    desk.type(U't');  // comes with the key
    type(desk, "500");
    for (int i = 0; i < 3; ++i) desk.press({Key::enter});
    CHECK_FALSE(desk.typing());
    REQUIRE(desk.typed().trays.size() == 1);
    CHECK(desk.rerunning());
    wait_for_run(desk);
    REQUIRE(desk.charts()[2].lines.size() == 2);
    CHECK(desk.charts()[2].lines[1].name == "with typed");
    CHECK(desk.charts()[4].lines.size() == 1);  // the speed is as it was logged
    sim::Machine machine = desk.day().day.machines[1];
    machine.trays.push_back(desk.typed().trays[0].check);
    std::stable_sort(machine.trays.begin(), machine.trays.end(),
                     [](const sim::TrayCheck& a, const sim::TrayCheck& b) { return a.unix_s < b.unix_s; });
    const sim::MachineResult expected = sim::replay_machine(machine, {}, nullptr);
    REQUIRE(desk.sums().size() == 2);
    CHECK(desk.sums()[1].sum.lost == sum_of(expected, {}).lost);
    CHECK(static_cast<double>(sim::loss_parts(expected).total.share) > 1.3 * before);
    desk.press({Key::remove});
    CHECK(desk.typed().empty());
    CHECK(desk.charts()[2].lines.size() == 1);
    CHECK(desk.sums().size() == 1);
}

TEST_CASE("A reading typed in tells how ripe its field is thought to be now") {
    DayDesk desk(shipped_day(), {});
    desk.press({Key::r});
    desk.type(U'r');
    type(desk, "125");
    desk.press({Key::enter});
    REQUIRE(desk.typed().readings.size() == 1);
    CHECK(desk.note().find("Larkrise Forty at the day's end: 10") == 0);
    CHECK(desk.rows().size() == DayDesk(shipped_day(), {}).rows().size() + 1);
}
