// Listening live, as on a machine: a real process, real pipes, the real clock.
#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "podrate/bus/bus_encoder.hpp"
#include "support/live_program.hpp"
#include "support/program.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using namespace std::chrono_literals;
using nlohmann::json;
using test::LiveProgram;

namespace {

constexpr TimeUs kStart = 1751032800 * kSecondUs;

// Candump text of a machine at work, 0.5 kg/m2 at 0.8 m/s and 3.3 m, ten times a second; without time stamps
// where `stamped` is false.
std::string at_work(int first_tenth, int tenths, bool stamped = true) {
    std::string text;
    bus::BusEncoder encoder;
    for (int i = first_tenth; i < first_tenth + tenths; ++i) {
        const TimeUs t = kStart + i * kSecondUs / 10;
        for (const Sample& sample : {speed_sample(t, 0.8F), reel_sample(t, true),
                                     weight_sample(t, 0.132F * static_cast<float>(i))}) {
            encoder.encode(sample);
            const bus::CanFrame& frame = encoder.frame(0);
            char line[80];
            int used = 0;
            if (stamped) {
                used = std::snprintf(line, sizeof line, "(%010lld.%06lld) ",
                                     static_cast<long long>(t / kSecondUs),
                                     static_cast<long long>(t % kSecondUs));
            }
            used += std::snprintf(line + used, sizeof line - static_cast<std::size_t>(used), "can0 %08X#",
                                  static_cast<unsigned>(frame.id));
            text.append(line, static_cast<std::size_t>(used));
            for (const std::uint8_t byte : frame.data) {
                std::snprintf(line, sizeof line, "%02X", byte);
                text += line;
            }
            text += '\n';
        }
    }
    return text;
}

}  // namespace

TEST_CASE("A recorded bus on standard input gives a line for each of its seconds") {
    LiveProgram program({"listen", "-", "--width", "3.3"});
    program.write(at_work(0, 2400));
    program.end_input();
    std::vector<std::string> lines;
    while (const auto line = program.line(10s)) lines.push_back(*line);
    CHECK(program.wait(10s) == 0);
    REQUIRE(lines.size() == 240);
    CHECK(lines[0].substr(0, 9) == "14:00:00 ");
    CHECK(lines[239].substr(0, 20) == "14:03:59 harvesting ");
    for (const char* word : {" t/h (", " t/ha ", " lost ", " hopper "})
        CHECK(lines[239].find(word) != std::string::npos);
}

TEST_CASE("Lines of JSON hold the figures, and null where they are not known") {
    LiveProgram program({"listen", "-", "--width", "3.3", "--json"});
    json last;
    for (int i = 0; i < 240; ++i) {
        // Minute by minute: more lines than a pipe holds would wait for each other.
        if (i % 60 == 0) program.write(at_work(10 * i, 600));
        const auto line = program.line(10s);
        REQUIRE(line);
        last = json::parse(*line);
    }
    CHECK(last["unix_s"] == 1751033039.0);
    CHECK(last["input"] == "good");
    CHECK(last["state"] == "harvesting");
    // 0.5 kg/m2 at 0.8 m/s and 3.3 m.
    CHECK(last["load_rate_tph"].get<double>() == Approx(0.5 * 0.8 * 3.3 * 3.6).epsilon(0.1));
    CHECK(last["load_rate_low_tph"] < last["load_rate_tph"]);
    CHECK(last["hopper_kg"].get<double>() == Approx(0.132 * 2390).epsilon(0.02));
    // The input falls silent: told within two seconds, and no figure of before is said again.
    const auto before = std::chrono::steady_clock::now();
    const auto line = program.line(10s);
    const auto waited = std::chrono::steady_clock::now() - before;
    REQUIRE(line);
    CHECK(waited < 2200ms);
    const json silent = json::parse(*line);
    CHECK(silent["input"] == "silent");
    for (const char* key :
         {"state", "load_rate_tph", "yield_tpha", "loss_pct", "hopper_kg", "harvested_t", "alarms"}) {
        INFO(key);
        CHECK(silent[key].is_null());
    }
    // It comes again.
    program.write(at_work(2430, 30));
    json again;
    while (const auto next = program.line(1s)) {
        again = json::parse(*next);
        if (again["input"] == "good") break;
    }
    CHECK(again["input"] == "good");
}

TEST_CASE("A signal ends listening at once and cleanly") {
    for (const int number : {SIGINT, SIGTERM}) {
        LiveProgram program({"listen", "-", "--width", "3.3"});
        program.write(at_work(0, 15));
        REQUIRE(program.line(10s));
        program.signal(number);
        CHECK(program.wait(5s) == 0);
    }
}

TEST_CASE("Listening ends where nobody reads what it says") {
    LiveProgram program({"listen", "-", "--width", "3.3"});
    program.write(at_work(0, 15));
    REQUIRE(program.line(10s));
    program.end_output();
    program.write(at_work(15, 200));
    CHECK(program.wait(5s) == 0);
}

TEST_CASE("Frames without stamps are stamped as they come") {
    LiveProgram program({"listen", "-", "--width", "3.3", "--json"});
    const auto now_s = static_cast<double>(std::time(nullptr));
    program.write(at_work(0, 1, false));
    const auto line = program.line(10s);
    REQUIRE(line);
    CHECK(json::parse(*line)["unix_s"].get<double>() == Approx(now_s).margin(60.0));
}

TEST_CASE("Listening takes a machine's parameters from a day") {
    const std::string day = PODRATE_SOURCE_DIR "/demo_logs/harrowmere";
    LiveProgram program({"listen", "-", "--day", day, "--machine", "viner_3", "--json"});
    program.write(at_work(0, 100));
    program.end_input();
    json last;
    while (const auto line = program.line(10s)) last = json::parse(*line);
    CHECK(program.wait(10s) == 0);
    CHECK(last["input"] == "good");
    // Of the 1800 kg that this machine's hopper holds.
    CHECK(last["hopper_pct"].get<double>() ==
          Approx(100.0 * last["hopper_kg"].get<double>() / 1800.0).margin(0.1));
    const test::ProgramRun several = test::run_podrate({"listen", "-", "--day", day});
    CHECK(several.exit_code == 2);
    CHECK(several.err.find("viner_1, viner_2, viner_3") != std::string::npos);
}

TEST_CASE("Listening says what is missing and what it can't use") {
    CHECK(test::run_podrate({"listen", "-"}).exit_code == 2);
    CHECK(test::run_podrate({"listen", "-"}).err.find("--width") != std::string::npos);
    CHECK(test::run_podrate({"listen", "--width", "3.3"}).exit_code == 2);
    CHECK(test::run_podrate({"listen", "log.csv", "--width", "3.3"}).exit_code == 2);
    CHECK(test::run_podrate({"listen", "--serial", "/nowhere", "--width", "3.3"}).exit_code == 2);
    const test::ProgramRun none = test::run_podrate({"listen", "--can", "podrate_none", "--width", "3.3"});
    CHECK(none.exit_code == 2);
    CHECK(none.err.find("podrate_none") != std::string::npos);
    // An empty input: nothing was done.
    const test::ProgramRun empty = test::run_podrate({"listen", "-", "--width", "3.3"});
    CHECK(empty.exit_code == 1);
    CHECK(empty.err.find("no weight has come") != std::string::npos);
    LiveProgram spoilt({"listen", "-", "--width", "3.3"});
    spoilt.write(at_work(0, 15) + "garbage\n" + at_work(15, 15));
    spoilt.end_input();
    CHECK(spoilt.wait(10s) == 1);
}

TEST_CASE("An input that is closed and an output that is full are refused, with the mend") {
    const auto ended = [](const std::string& redirected) {
        const test::TempFolder folder;
        const std::string told = (folder.path() / "told").string();
        const std::string command =
            "timeout 10 " PODRATE_PROGRAM " listen - --width 3.3 " + redirected + " 2>" + told;
        const int status = std::system(command.c_str());
        std::stringstream text;
        text << std::ifstream(told).rdbuf();
        return std::pair(WEXITSTATUS(status), text.str());
    };
    const auto [closed, closed_text] = ended("<&-");
    CHECK(closed == 2);
    CHECK(closed_text.find("standard input: is closed; pipe") != std::string::npos);
    const test::TempFolder folder;
    const std::string log = (folder.path() / "bus.log").string();
    std::ofstream(log) << at_work(0, 20) << "what is that\n" << at_work(20, 20);
    const auto [full, full_text] = ended("<" + log + " >/dev/full");
    CHECK(full == 2);
    CHECK(full_text.find("standard output: can't be written") != std::string::npos);
    const auto [spoilt, spoilt_text] = ended("<" + log + " >/dev/null");
    CHECK(spoilt == 1);
    CHECK(spoilt_text.find("standard input:61: line can't be read") != std::string::npos);
    CHECK(spoilt_text.find("; line skipped") != std::string::npos);
}
