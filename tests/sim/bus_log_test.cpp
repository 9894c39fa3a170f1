#include <catch2/catch.hpp>

#include "convert/candump_text.hpp"
#include "day/day.hpp"
#include "log/machine_log.hpp"
#include "replay/machine_replay.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;

namespace {

constexpr TimeUs kStart = 1751032800 * kSecondUs;

struct Told {
    std::vector<sim::LogRow> rows;
    std::vector<Sample> samples;
    sim::Problems problems;
    bool has_speed = false;
    std::uint64_t rows_bad = 0;
};

Told read(const std::string& text, const sim::BusChoice& bus = {}) {
    const test::TempFolder folder;
    Told told;
    const auto log = sim::open_log(folder.file("viner.log", text), bus, told.problems);
    const sim::SampleTaker take = [&told](const Sample& sample) {
        told.samples.push_back(sample);
        return check(sample);
    };
    sim::LogRow row;
    while (log->next(row)) {
        told.rows.push_back(row);
        log->feed(row, take);
    }
    told.has_speed = log->has(sim::Column::speed_mps);
    told.rows_bad = log->rows_bad();
    return told;
}

// Ten minutes of a machine that cuts 0.5 kg/m2 at 0.8 m/s and 3.3 m, weighed at 2 Hz: 1.32 kg/s.
std::string working_log(int seconds = 600) {
    std::string text;
    sim::CandumpWriter writer;
    for (int i = 0; i < 2 * seconds; ++i) {
        const TimeUs t = kStart + i * kSecondUs / 2;
        writer.add(speed_sample(t, 0.8F), text);
        writer.add(reel_sample(t + 1000, true), text);
        writer.add(weight_sample(t + 2000, 0.66F * static_cast<float>(i)), text);
    }
    return text;
}

}  // namespace

TEST_CASE("Each sample of a bus is a row with its own time") {
    std::string text;
    sim::CandumpWriter writer;
    writer.add(speed_sample(kStart, 1.234F), text);
    writer.add(tilt_sample(kStart + 10, 2.0F, -1.0F), text);
    writer.add(position_sample(kStart + 20, 526000001, 28999999), text);
    writer.add(heading_sample(kStart + 30, 86.0F), text);
    writer.add(reel_sample(kStart + 40, true), text);
    writer.add(weight_sample(kStart + 50, 812.5F), text);
    writer.add_drum(kStart + 60, 24.5, text);
    const Told told = read(text);
    REQUIRE(told.rows.size() == 7);
    CHECK(told.problems.count() == 0);
    CHECK(told.rows[0][sim::Column::speed_mps] == Approx(1.234));
    CHECK(told.rows[1][sim::Column::pitch_deg] == Approx(2.0).margin(0.003));
    CHECK(told.rows[1][sim::Column::roll_deg] == Approx(-1.0).margin(0.003));
    CHECK(told.rows[2][sim::Column::lat_deg] == Approx(52.6000001).epsilon(1e-12));
    CHECK(told.rows[3][sim::Column::heading_deg] == Approx(86.0).margin(0.003));
    CHECK(told.rows[4][sim::Column::reel_on] == 1.0);
    CHECK(told.rows[5][sim::Column::hopper_kg] == 812.5);
    CHECK(told.rows[6][sim::Column::drum_rpm] == 24.5);
    for (std::size_t i = 0; i < told.rows.size(); ++i) {
        CHECK(told.rows[i].time_us == kStart + static_cast<TimeUs>(10 * i));
        CHECK(told.rows[i].line == i + 1);
        CHECK(told.rows[i].lone);
        CHECK(told.rows[i].holds_weight() == (i == 5));
    }
    // The drum's speed is no sample.
    REQUIRE(told.samples.size() == 6);
    CHECK(told.samples[2].lat_e7 == 526000001);
    CHECK(told.samples[5].value[0] == 812.5F);
    CHECK(told.has_speed);
}

TEST_CASE("Hits count on in rows and come new in samples") {
    std::string text;
    sim::CandumpWriter writer;
    for (const float hits : {0.0F, 3.0F, 0.0F, 5.0F}) {
        static int second = 0;
        writer.add(hits_sample(kStart + ++second * kSecondUs, hits), text);
    }
    const Told told = read(text);
    REQUIRE(told.rows.size() == 4);
    CHECK(told.rows[3][sim::Column::loss_hits] == 8.0);
    CHECK(told.samples[1].value[0] == 3.0F);
    CHECK(told.samples[3].value[0] == 5.0F);
}

TEST_CASE("Frames that hold nonsense are told with their line") {
    std::string text;
    sim::CandumpWriter writer;
    writer.add(weight_sample(kStart, 5.0F), text);
    text += "(1751032801.000000) can0 0CFE4980#00FC\n";              // too short
    text += "(1751032802.000000) can0 09F80180#FFFFFF7EFFFFFF7E\n";  // latitude of 213 degrees
    text += "(1751032803.000000) can0 123#0102030405060708\n";       // nobody's
    const Told told = read(text);
    REQUIRE(told.rows.size() == 1);
    CHECK(told.rows_bad == 1);
    REQUIRE(told.problems.count() == 2);
    CHECK(told.problems.kept()[0].line == 2);
    CHECK(told.problems.kept()[0].reason.find("0CFE4980 is too short") != std::string::npos);
    CHECK(told.problems.kept()[1].line == 3);
    CHECK(told.problems.kept()[1].reason.find("09F80180 holds a value") != std::string::npos);
}

TEST_CASE("A bus is replayed like any log") {
    const test::TempFolder folder;
    sim::Machine machine;
    machine.id = "viner";
    machine.log = folder.file("viner.log", working_log());
    machine.parameters.width_m = 3.3F;
    const sim::MachineResult result = sim::replay_machine(machine, {}, {});
    REQUIRE(result.usable);
    CHECK(result.problems.count() == 0);
    CHECK(result.rows_read == 3600);
    CHECK(static_cast<double>(result.last.area_m2) == Approx(0.8 * 3.3 * 599.5).epsilon(0.002));
    CHECK(static_cast<double>(result.last.mass_kg) == Approx(0.66 * 1199).epsilon(0.01));
}

TEST_CASE("A bus without a weight is refused") {
    const test::TempFolder folder;
    sim::Machine machine;
    machine.log = folder.file("viner.log", "(1751032801.000000) can0 123#0102030405060708\n");
    const sim::MachineResult result = sim::replay_machine(machine, {}, {});
    CHECK_FALSE(result.usable);
    CHECK(result.refusal.find("holds no row with a time and a weight") != std::string::npos);
}

TEST_CASE("A day says which interface, senders and elements are listened to") {
    const test::TempFolder folder;
    const std::string begin = "[[machine]]\nid = \"viner\"\nlog = \"viner.log\"\nwidth_m = 3.3\n";
    test::write_text(folder / "day.toml", begin +
                                              "can_interface = \"can1\"\nspeed_from = 28\nweight_from = 0\n"
                                              "hopper_element = 7\nweight_cells = 3\n");
    const sim::Day day = sim::read_day(folder.path());
    CHECK(day.problems.count() == 0);
    const sim::BusChoice& bus = day.machines[0].bus;
    CHECK(bus.interface == "can1");
    CHECK(bus.settings.speed_from == 28);
    CHECK(bus.settings.weight_from == 0);
    CHECK(bus.settings.tilt_from == 0xFF);
    CHECK(bus.settings.hopper_element == 7);
    CHECK(bus.settings.cells == 3);
    for (const char* wrong : {"speed_from = 254\n", "speed_from = -1\n", "weight_cells = 5\n",
                              "reel_element = 4096\n", "hopper_element = 0.5\n"}) {
        INFO(wrong);
        test::write_text(folder / "day.toml", begin + wrong);
        CHECK_THROWS_AS(sim::read_day(folder.path()), sim::RefusedInput);
    }
}

TEST_CASE("Of several interfaces and senders the chosen one is replayed") {
    std::string text = working_log(20);
    // A second scale on another wire, and another sender of weights on the same.
    text += "(1751032820.000000) can1 0CCBFF80#03004B0000000000\n";
    text += "(1751032820.100000) can0 0CCBFF81#03004B00FF000000\n";
    text += "(1751032820.200000) can0 0CCBFF80#03004B0000010000\n";
    sim::BusChoice bus;
    bus.interface = "can0";
    bus.settings.weight_from = 0x80;
    const Told told = read(text, bus);
    CHECK(told.rows.size() == 121);
    CHECK(told.problems.faults() == 0);
    CHECK(told.samples.back().value[0] == 0.256F);
}
