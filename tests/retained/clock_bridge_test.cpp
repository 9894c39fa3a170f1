#include "podrate/time/clock_bridge.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/machine.hpp"
#include "podrate/estimator.hpp"

using namespace podrate;

namespace {

constexpr TimeUs kUtcUs = TimeUs{1751032800} * kSecondUs;  // 2025-06-27T14:00:00Z

TimeUs utc(const ClockBridge& bridge, TimeUs time_us) {
    TimeUs utc_us = -1;
    CHECK(bridge.utc_of(time_us, utc_us));
    return utc_us;
}

void tell(ClockBridge& bridge, int from_s, int to_s, TimeUs ahead_us) {
    for (int s = from_s; s < to_s; ++s) REQUIRE(bridge.told(s * kSecondUs, s * kSecondUs + ahead_us));
}

}  // namespace

TEST_CASE("UTC told in the middle of the day holds for the morning too") {
    ClockBridge bridge;
    TimeUs there_us = 0;
    CHECK_FALSE(bridge.utc_of(100 * kSecondUs, there_us));
    CHECK_FALSE(bridge.time_of(kUtcUs, there_us));
    bridge.told(500 * kSecondUs, kUtcUs);
    bridge.told(501 * kSecondUs, kUtcUs + kSecondUs);
    CHECK_FALSE(bridge.known());  // two may be wrong together
    bridge.told(502 * kSecondUs, kUtcUs + 2 * kSecondUs);
    CHECK(bridge.known());
    CHECK(utc(bridge, 100 * kSecondUs) == kUtcUs - 400 * kSecondUs);
    CHECK(utc(bridge, 600 * kSecondUs) == kUtcUs + 100 * kSecondUs);
    REQUIRE(bridge.time_of(kUtcUs, there_us));
    CHECK(there_us == 500 * kSecondUs);
}

TEST_CASE("A leap second gives times before it the old offset and times after it the new one") {
    // At the end of 2016 POSIX time told 1483228799 for two seconds (IERS Bulletin C 52).
    constexpr TimeUs kBeforeUs = TimeUs{1483228700} * kSecondUs;
    ClockBridge bridge;
    tell(bridge, 0, 100, kBeforeUs);
    tell(bridge, 100, 200, kBeforeUs - kSecondUs);
    CHECK(utc(bridge, 99 * kSecondUs) == TimeUs{1483228799} * kSecondUs);
    CHECK(utc(bridge, 100 * kSecondUs) == TimeUs{1483228799} * kSecondUs);
    CHECK(utc(bridge, 101 * kSecondUs) == TimeUs{1483228800} * kSecondUs);
    CHECK(utc(bridge, 150 * kSecondUs) - utc(bridge, 50 * kSecondUs) == 99 * kSecondUs);
}

TEST_CASE("A clock set right is followed from then on and a single wrong telling is not") {
    ClockBridge bridge;
    tell(bridge, 0, 50, kUtcUs);
    CHECK(bridge.told(50 * kSecondUs, kUtcUs + 9000 * kSecondUs));
    CHECK(bridge.told(51 * kSecondUs, kUtcUs - 9000 * kSecondUs));
    tell(bridge, 52, 60, kUtcUs);
    CHECK(utc(bridge, 55 * kSecondUs) == kUtcUs + 55 * kSecondUs);
    CHECK(bridge.memory().count == 1);
    tell(bridge, 60, 90, kUtcUs + 3600 * kSecondUs);
    CHECK(utc(bridge, 55 * kSecondUs) == kUtcUs + 55 * kSecondUs);
    CHECK(utc(bridge, 75 * kSecondUs) == kUtcUs + 3675 * kSecondUs);
}

TEST_CASE("A quartz that runs wrong by 50 ppm and tellings that come late by a tenth are followed") {
    ClockBridge bridge;
    double worst_s = 0.0;
    for (int s = 0; s < 86400; ++s) {
        const TimeUs now_us = s * kSecondUs;
        const TimeUs true_us = kUtcUs + now_us + s * TimeUs{50};
        bridge.told(now_us, true_us - (s * 7919 % 100) * 1000);  // 0 to 99 ms late
        TimeUs utc_us = 0;
        if (s < 10 || !bridge.utc_of(now_us, utc_us)) continue;
        worst_s = std::max(worst_s, std::abs(static_cast<double>(utc_us - true_us)) / 1e6);
    }
    CHECK(bridge.memory().count == 1);
    CHECK(worst_s < 0.1);
}

TEST_CASE("Tellings that cannot be are refused") {
    ClockBridge bridge(100);
    CHECK_FALSE(bridge.told(99, kUtcUs));  // before it began
    CHECK_FALSE(bridge.told(200, -1));
    CHECK_FALSE(bridge.told(200, TimeUs{315964800} * kSecondUs));  // 1980-01-06: a receiver without a fix
    CHECK_FALSE(bridge.told(200, std::numeric_limits<TimeUs>::max()));
    CHECK_FALSE(bridge.told(std::numeric_limits<TimeUs>::max(), kUtcUs));
    TimeUs there_us = 0;
    CHECK_FALSE(bridge.utc_of(200, there_us));
}

TEST_CASE("More steps than are remembered leave the newest right") {
    ClockBridge bridge;
    for (int step = 0; step < 10; ++step)
        tell(bridge, 10 * step, 10 * step + 10, kUtcUs + step * TimeUs{100} * kSecondUs);
    CHECK(bridge.memory().count == ClockMemory::kMost);
    CHECK(utc(bridge, 95 * kSecondUs) == kUtcUs + 995 * kSecondUs);
    CHECK(utc(bridge, 65 * kSecondUs) == kUtcUs + 665 * kSecondUs);
}

TEST_CASE("A load that began before a power cut and a step of UTC has both its times right") {
    // The machine's own clock says something else altogether: only differences count.
    struct Feed {
        Estimator* estimator;
        void operator()(const Sample& sample) const { REQUIRE(estimator->feed(sample) == FeedResult::taken); }
    };
    Estimator estimator{Parameters{}};
    test::Machine<Feed> machine(Feed{&estimator}, 4);
    const TimeUs start_us = machine.now_us();
    ClockBridge bridge(start_us);
    TimeUs ahead_us = kUtcUs - start_us;
    const auto drive = [&](int for_s) {
        for (int s = 0; s < for_s; ++s) {
            machine.drive(1.0, 0.8);
            bridge.told(machine.now_us(), machine.now_us() + ahead_us);
        }
    };
    machine.stand(5.0);
    drive(300);
    RetainedState kept;
    REQUIRE(estimator.save(kept));
    kept.clock = bridge.memory();
    // Off for 20 s by UTC; the controller cannot know and goes on a second later.
    estimator = Estimator{Parameters{}};
    const TimeUs on_us = machine.now_us() + kSecondUs;
    machine.silent = true;
    machine.stand(1.0);
    machine.silent = false;
    REQUIRE(estimator.resume(kept, on_us) == ResumeResult::resumed);
    bridge = ClockBridge(on_us);
    bridge.take_up(kept.clock);
    ahead_us += 19 * kSecondUs;
    drive(300);
    machine.stand(30.0);
    const TimeUs full_us = machine.now_us();
    machine.tip();
    machine.stand(20.0);
    REQUIRE(estimator.load_count() == 1);
    const Load& load = estimator.last_load();
    CHECK(std::abs(utc(bridge, load.start_us) - (kUtcUs + 100000)) < kSecondUs / 2);
    CHECK(std::abs(utc(bridge, load.end_us) - (full_us + ahead_us)) < 3 * kSecondUs);
    CHECK(utc(bridge, load.end_us) - utc(bridge, load.start_us) ==
          load.end_us - load.start_us + 19 * kSecondUs);
}
