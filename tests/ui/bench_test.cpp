// The bench by its keys: editing, replaying, saving and opening.
#include "bench/bench.hpp"

#include <fstream>

#include "parameters/parameter_file.hpp"
#include "podrate/parameter_bytes.hpp"
#include "ui/bench_desk.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

const FigureCompared& total(const Bench& bench, const std::string& name) {
    for (const FigureCompared& one : bench.totals()) {
        if (one.name == name) return one;
    }
    FAIL("no total " << name);
    return bench.totals().front();
}

AlarmsCompared of_kind(const Bench& bench, AlarmId alarm) {
    for (const AlarmsCompared& one : bench.alarms()) {
        if (one.alarm == alarm) return one;
    }
    return {alarm, 0, 0, 0, 0, 0.0, 0.0};
}

void save(BenchDesk& desk, const std::string& name, const std::string& note) {
    desk.press(Key::s);
    desk.bench().type('s');  // the sign of the key that began it
    desk.type(name);
    desk.press(Key::enter);
    desk.type(note);
    desk.press(Key::enter);
}

}  // namespace

TEST_CASE("A typed value is replayed and shown beside the day's") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    CHECK(bench.after() == nullptr);
    CHECK(total(bench, "Lost").after.empty());
    desk.set("drum_loss_share", "0.08");
    CHECK(bench.rerunning());
    desk.wait();
    REQUIRE(bench.after() != nullptr);
    CHECK(bench.after()->machine.parameters.drum_loss_share == Real(0.08));
    CHECK(total(bench, "Lost").change.front() == '+');
    CHECK(total(bench, "Loads").change ==
          "\xC2\xB1"
          "0");
    CHECK(total(bench, "Harvested").before == total(bench, "Harvested").after);
    REQUIRE(bench.charts().size() > 3);
    for (const Chart& chart : bench.charts()) CHECK(chart.lines.size() == 2);
    const Measure first = bench.charts().front().measure;
    desk.press(Key::g);
    CHECK(bench.charts().front().measure != first);

    desk.press(Key::z);
    CHECK(bench.after() == nullptr);
    CHECK(bench.edited().changes() == 0);
    CHECK(bench.charts().front().lines.size() == 1);
    desk.press(Key::y);
    desk.wait();
    CHECK(bench.after()->machine.parameters.drum_loss_share == Real(0.08));
    desk.press(Key::r);
    CHECK(bench.edited().changes() == 0);
}

TEST_CASE("Alarms that come and go are counted by the time at which they stood") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    const AlarmsCompared before = of_kind(bench, AlarmId::hopper_full);
    REQUIRE(before.before > 2);
    CHECK(before.before == before.after);
    CHECK(before.gone == 0);
    desk.set("hopper_full_share", "1.3");
    desk.wait();
    AlarmsCompared full = of_kind(bench, AlarmId::hopper_full);
    CHECK(full.after == 0);
    CHECK(full.gone == full.before);
    desk.press(Key::remove);
    desk.set("loss_high_share", "0.03");
    desk.wait();
    full = of_kind(bench, AlarmId::hopper_full);
    CHECK(full.gone == 0);
    CHECK(full.after == full.before);
    const AlarmsCompared loss = of_kind(bench, AlarmId::loss_high);
    CHECK(loss.after > loss.before);
    CHECK(loss.come > 0);
    CHECK(loss.after_s > loss.before_s);
}

TEST_CASE("A number that is wrong is told of and stays to be mended") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    desk.set("loss_limit_share", "0.95");
    CHECK(bench.typing());
    CHECK(bench.note() == "0.95 is outside. Allowed: 0.010 to 0.900");
    CHECK(bench.edited().changes() == 0);
    for (int i = 0; i < 4; ++i) desk.press(Key::backspace);
    CHECK(bench.note().empty());
    desk.type("2");
    desk.press(Key::home);
    desk.type("0.");
    desk.press(Key::enter);
    CHECK_FALSE(bench.typing());
    CHECK(bench.edited().now().loss_limit_share == Real(0.2));
    desk.press(Key::d5);
    desk.bench().type('5');
    CHECK(bench.line().text() == "5");
    desk.press(Key::escape);
    CHECK(bench.edited().now().loss_limit_share == Real(0.2));
    desk.press(Key::right);
    desk.press(Key::minus);
    desk.press(Key::minus);
    CHECK(bench.edited().now().loss_limit_share == Real(0.195));
}

TEST_CASE("A set is saved with name and note and opened again with its history") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    desk.press(Key::s);
    CHECK_FALSE(bench.typing());
    CHECK_FALSE(bench.note().empty());
    desk.press(Key::o);
    CHECK(bench.note().find(desk.sets().string()) != std::string::npos);
    desk.set("loss_limit_share", "0.2");
    save(desk, "wet", "it rained");
    CHECK(bench.note() == "Saved: " + (desk.sets() / "wet.toml").string());
    CHECK_FALSE(bench.edited().unsaved());
    sim::ParameterSet kept = sim::read_parameter_set(desk.sets() / "wet.toml").set;
    CHECK(kept.made.note == "it rained");
    CHECK(kept.made.who == "A. Miller");
    CHECK(kept.made.unix_s == kBenchClockS);
    CHECK(kept.made.made_from == "viner_1, " + bench.day().day.label);
    CHECK(kept.made.made_from_mark == sim::mark_of(bench.edited().own()));
    CHECK(kept.named() == 1);

    const std::string first_mark = sim::read_parameter_set(desk.sets() / "wet.toml").mark;
    desk.set("outage_s", "45");
    CHECK(bench.edited().unsaved());
    save(desk, "wet", "and stood still");
    kept = sim::read_parameter_set(desk.sets() / "wet.toml").set;
    CHECK(kept.named() == 2);
    CHECK(kept.made.made_from == "wet");
    CHECK(kept.made.made_from_mark == first_mark);
    REQUIRE(kept.history.size() == 1);
    CHECK(kept.history[0].note == "it rained");
    CHECK(sim::read_parameter_set(desk.sets() / "wet.toml.bak").mark == first_mark);

    desk.press(Key::r);
    CHECK(bench.edited().from() == nullptr);
    desk.press(Key::o);
    CHECK(bench.edited().from()->name == "wet");
    CHECK(bench.edited().now().outage_s == Real(45));
    desk.wait();
    CHECK(bench.after()->machine.parameters.outage_s == Real(45));
    desk.press(Key::o);
    CHECK(bench.edited().changes() == 0);
}

TEST_CASE("A name that is taken or none is told of, and so is a missing reason") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    desk.set("loss_limit_share", "0.2");
    save(desk, "wet", "it rained");
    desk.press(Key::r);
    desk.set("outage_s", "45");
    desk.press(Key::s);
    desk.bench().type('s');
    desk.type("wet");
    desk.press(Key::enter);
    CHECK(bench.what_is_typed() == BenchTyping::name);
    CHECK(bench.note().find("wet is there already") == 0);
    desk.press(Key::end);
    for (const char c : std::string("/..")) bench.type(static_cast<char32_t>(c));
    desk.press(Key::enter);
    CHECK(bench.note().find("A name has letters") == 0);
    for (int i = 0; i < 3; ++i) desk.press(Key::backspace);
    desk.type("2");
    desk.press(Key::enter);
    CHECK(bench.what_is_typed() == BenchTyping::note);
    desk.press(Key::enter);
    CHECK(bench.typing());
    CHECK_FALSE(bench.note().empty());
    desk.press(Key::escape);
    CHECK_FALSE(bench.typing());
    CHECK(sim::parameter_files(desk.sets()).size() == 1);
}

TEST_CASE("A damaged set is not opened and changes nothing") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    desk.set("loss_limit_share", "0.2");
    save(desk, "wet", "it rained");
    desk.press(Key::r);
    std::fstream(desk.sets() / "wet.toml", std::ios::in | std::ios::out).seekp(120).put('~');
    desk.press(Key::o);
    CHECK(bench.note().find("Not opened: ") == 0);
    CHECK(bench.note().find("wet.toml") != std::string::npos);
    CHECK(bench.edited().changes() == 0);
}

TEST_CASE("Each machine has its own edited copy, and its replay comes when it is looked at") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    desk.set("drum_loss_share", "0.08");
    desk.press(Key::m);
    CHECK(bench.machine() == 1);
    CHECK(bench.edited().changes() == 0);
    desk.set("drum_loss_share", "0.07");
    desk.press(Key::m);
    desk.press(Key::m);
    CHECK(bench.machine() == 0);
    desk.wait();
    REQUIRE(bench.after() != nullptr);
    CHECK(bench.after()->machine.id == "viner_1");
    CHECK(bench.after()->machine.parameters.drum_loss_share == Real(0.08));

    Bench again(shipped_day(), {}, {}, nullptr);
    again.go_on_from(bench);
    CHECK(again.edited().now().drum_loss_share == Real(0.08));
    again.look_at(1, shipped_day()->series.origin_us);
    CHECK(again.edited().now().drum_loss_share == Real(0.07));
}

TEST_CASE("The same picture for the same bench, others by night and after a change") {
    const auto picture = [](const Palette& palette, bool change) {
        BenchDesk desk(800, 480, {}, 1.0F, palette);
        if (change) desk.set("drum_loss_share", "0.08");
        desk.wait();
        return desk.picture().rgba;
    };
    const auto day = picture(kDayPalette, false);
    CHECK(day == picture(kDayPalette, false));
    CHECK(day != picture(kNightPalette, false));
    CHECK(day != picture(kDayPalette, true));
    CHECK(picture(kDayPalette, true) == picture(kDayPalette, true));
}

TEST_CASE("A click chooses a row, the wheel scrolls, buttons do what their keys do") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    desk.frame();
    // At 1280 x 800 the third row of the list lies about there: a head, width_m, bout_overlap_m.
    desk.click(200.0F, 104.0F);
    CHECK(std::string(kParameterTable[*bench.list().chosen()].name) == "bout_overlap_m");
    desk.wheel(200.0F, 300.0F, -1.0F);
    CHECK(bench.list().top(20) == 3);
    desk.click(900.0F, 200.0F);
    CHECK(bench.pane() == BenchPane::charts);
    desk.click(90.0F, 735.0F);
    CHECK(bench.what_is_typed() == BenchTyping::value);
    desk.press(Key::escape);
    desk.click(480.0F, 776.0F);
    CHECK(bench.list().changed_only());
    CHECK(bench.list().rows().empty());
}

TEST_CASE("A limit that is dragged shows the day's alarms at once, as a whole replay would") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    std::size_t index = 0;
    while (std::string(kParameterTable[index].name) != "hopper_nearly_full_share") ++index;
    bench.choose(index);
    CHECK(bench.rerunning());
    desk.wait();  // the machine's own run, whose trace serves
    const auto share_of = [&](double value) {
        return (value - kParameterTable[index].low) /
               (kParameterTable[index].high - kParameterTable[index].low);
    };
    bench.drag_value(share_of(0.6), true);
    for (const double value : {0.55, 0.5, 0.4}) bench.drag_value(share_of(value), false);
    CHECK_FALSE(bench.rerunning());
    REQUIRE(bench.after() != nullptr);
    sim::Machine machine = bench.day().day.machines[bench.machine()];
    machine.parameters = bench.edited().now();
    CHECK(static_cast<double>(machine.parameters.hopper_nearly_full_share) == Approx(0.4));
    const sim::MachineResult expected = sim::replay_machine(machine, {}, nullptr);
    REQUIRE(bench.after()->machine.alarms.size() == expected.alarms.size());
    for (std::size_t i = 0; i < expected.alarms.size(); ++i) {
        CHECK(bench.after()->machine.alarms[i].alarm == expected.alarms[i].alarm);
        CHECK(bench.after()->machine.alarms[i].start_us == expected.alarms[i].start_us);
        CHECK(bench.after()->machine.alarms[i].end_us == expected.alarms[i].end_us);
    }
    // The whole drag is one change.
    desk.press(Key::z);
    CHECK(bench.edited().changes() == 0);
    CHECK(bench.after() == nullptr);
    // The estimator's own parameters take a whole replay.
    desk.set("drum_loss_share", "0.06");
    CHECK(bench.rerunning());
    desk.wait();
    CHECK(bench.after() != nullptr);
}

TEST_CASE("What is after can be taken as before, so that two sets stand beside one another") {
    BenchDesk desk;
    Bench& bench = desk.bench();
    desk.press(Key::b);
    CHECK_FALSE(bench.note().empty());
    CHECK(bench.before_name().empty());
    desk.set("hopper_nearly_full_share", "0.5");
    desk.wait();
    const std::size_t first = bench.after()->machine.alarms.size();
    desk.press(Key::b);
    CHECK_FALSE(bench.before_name().empty());
    CHECK(bench.before().alarms.size() == first);
    desk.set("hopper_nearly_full_share", "1.1");
    desk.wait();
    CHECK(bench.before().alarms.size() == first);
    CHECK(bench.after()->machine.alarms.size() != first);
    REQUIRE(bench.charts()[0].lines.size() == 2);
    desk.press(Key::b);
    CHECK(bench.before_name().empty());
    CHECK(bench.before().alarms.size() == bench.day().result.machines[bench.machine()].alarms.size());
}
