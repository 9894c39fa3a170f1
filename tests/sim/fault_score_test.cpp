#include "score/fault_score.hpp"

#include <catch2/catch.hpp>

#include "support/temp_folder.hpp"

using namespace podrate::sim;
using podrate::test::TempFolder;

namespace {

constexpr double kStart = 1000.0;
constexpr double kEnd = 1060.0;

std::vector<WatchedSecond> seconds_of_an_hour() {
    std::vector<WatchedSecond> seconds;
    for (int i = 0; i < 3600; ++i) seconds.push_back({i * 1.0, 0.05, 0.1, false});
    return seconds;
}

void set_error(std::vector<WatchedSecond>& seconds, int from_s, int to_s, double error_kgps) {
    for (int i = from_s; i < to_s; ++i) seconds[static_cast<std::size_t>(i)].flow_error_kgps = error_kgps;
}

void alarm(std::vector<WatchedSecond>& seconds, int from_s, int to_s) {
    for (int i = from_s; i < to_s; ++i) seconds[static_cast<std::size_t>(i)].alarm = true;
}

std::vector<FaultScore> scored(const std::vector<WatchedSecond>& seconds,
                               const std::string& faults = "viner_1,weight_stuck,0,1000.0,1060.0,0.000\n",
                               const std::string& machine = "viner_1") {
    const TempFolder folder;
    std::filesystem::create_directory(folder / "truth");
    podrate::test::write_text(folder / "truth" / "faults.csv",
                              "machine,kind,cell,start_unix_s,end_unix_s,size\n" + faults);
    return score_faults(folder.path(), machine, seconds);
}

}  // namespace

TEST_CASE("A day without a truth of faults has none to score, nor has another machine") {
    const TempFolder folder;
    CHECK(score_faults(folder.path(), "viner_1", seconds_of_an_hour()).empty());
    CHECK(scored(seconds_of_an_hour(), "").empty());
    CHECK(scored(seconds_of_an_hour(), "viner_2,weight_stuck,0,1000.0,1060.0,0.000\n").empty());
}

TEST_CASE("A fault is told as soon as a sensor fault is shown after its start") {
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    CHECK_FALSE(scored(seconds)[0].told);
    alarm(seconds, 1012, 1020);
    alarm(seconds, 1040, 1050);
    const FaultScore score = scored(seconds)[0];
    CHECK(score.kind == "weight_stuck");
    CHECK(score.start_unix_s == kStart);
    CHECK(score.end_unix_s == kEnd);
    CHECK(score.told);
    CHECK(score.told_after_s == 12.0);
}

TEST_CASE("Alarms before a fault or more than five minutes after its end do not tell it") {
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    alarm(seconds, 900, 1000);
    alarm(seconds, 1361, 1400);
    CHECK_FALSE(scored(seconds)[0].told);
    alarm(seconds, 1360, 1361);
    const FaultScore score = scored(seconds)[0];
    CHECK(score.told);
    CHECK(score.told_after_s == 360.0);
}

TEST_CASE("A fault without a trace is settled at its end") {
    CHECK(scored(seconds_of_an_hour())[0].settled_after_s == 0.0);
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    // While it lasts any error is its own.
    set_error(seconds, 1000, 1060, 5.0);
    CHECK(scored(seconds)[0].settled_after_s == 0.0);
}

TEST_CASE("A trace lasts until half a minute's error is no more than twice what was stated") {
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    // 1 kg/s for 40 s more where 0.1 was stated. n such seconds in 30 give sqrt(n/30 * 100 + ...): one is
    // within twice, two are not.
    set_error(seconds, 1000, 1100, 1.0);
    CHECK(scored(seconds)[0].settled_after_s == 39.0);
    // Just within twice all the way.
    set_error(seconds, 1000, 1100, 0.19);
    CHECK(scored(seconds)[0].settled_after_s == 0.0);
}

TEST_CASE("A trace that does not go within five minutes is told as never settled") {
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    set_error(seconds, 1000, 1500, 1.0);
    CHECK(scored(seconds)[0].settled_after_s < 0.0);
    set_error(seconds, 1355, 1500, 0.05);
    CHECK(scored(seconds)[0].settled_after_s == Approx(294.0));
}

TEST_CASE("A flow stated closer than 0.03 kg/s is held against that") {
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    for (WatchedSecond& second : seconds) second.flow_sd_kgps = 0.001;
    CHECK(scored(seconds)[0].settled_after_s == 0.0);
    set_error(seconds, 1060, 3600, 0.07);
    CHECK(scored(seconds)[0].settled_after_s < 0.0);
}

TEST_CASE("A log that ends within a fault leaves nothing to settle") {
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    set_error(seconds, 1000, 3600, 9.0);
    seconds.resize(1030);
    CHECK(scored(seconds)[0].settled_after_s == 0.0);
    CHECK(scored({})[0].settled_after_s == 0.0);
    CHECK_FALSE(scored({})[0].told);
}

TEST_CASE("A clock put back is over when it has come up to its time again") {
    const auto end_of = [](const std::string& size) {
        return scored(seconds_of_an_hour(), "viner_1,clock_jump,0,1000.0,1000.0," + size + "\n")[0]
            .end_unix_s;
    };
    CHECK(end_of("-45.0") == 1045.0);
    CHECK(end_of("45.0") == 1000.0);
}

TEST_CASE("Faults are scored each by itself, in their order") {
    std::vector<WatchedSecond> seconds = seconds_of_an_hour();
    alarm(seconds, 2005, 2010);
    const auto scores = scored(seconds,
                               "viner_1,weight_stuck,0,1000.0,1060.0,0.000\n"
                               "viner_2,tilt_dead,0,1500.0,1560.0,0.000\n"
                               "viner_1,speed_zero,0,2000.0,2060.0,0.000\n");
    REQUIRE(scores.size() == 2);
    CHECK_FALSE(scores[0].told);
    CHECK(scores[1].kind == "speed_zero");
    CHECK(scores[1].told_after_s == 5.0);
}
