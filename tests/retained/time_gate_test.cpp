#include "podrate/time/time_gate.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace podrate;

namespace {

constexpr TimeUs kNowUs = TimeUs{1000} * kSecondUs;
constexpr TimeUs kDayUs = TimeUs{86400} * kSecondUs;

TimeVerdict weight_at(TimeGate& gate, TimeUs time_us) {
    return gate.judge(time_us, Channel::weight);
}

}  // namespace

TEST_CASE("Times that go on are good and such as go back are not") {
    TimeGate gate(kNowUs);
    CHECK(weight_at(gate, kNowUs) == TimeVerdict::good);
    CHECK(weight_at(gate, kNowUs + 30 * kSecondUs) == TimeVerdict::good);
    CHECK(weight_at(gate, kNowUs) == TimeVerdict::back);
    CHECK(gate.newest_us() == kNowUs + 30 * kSecondUs);
}

TEST_CASE("Times that nobody lives in are refused at once") {
    TimeGate gate(0);
    for (const TimeUs time_us :
         {TimeUs{-1}, kLatestUs + 1, std::numeric_limits<TimeUs>::min(), std::numeric_limits<TimeUs>::max()})
        for (int i = 0; i < 10; ++i) CHECK(weight_at(gate, time_us) == TimeVerdict::out_of_range);
    CHECK(weight_at(gate, 0) == TimeVerdict::good);
}

TEST_CASE("Wild stamps between good ones are never believed, however many agree") {
    TimeGate gate(kNowUs);
    for (int i = 1; i < 200; ++i) {
        CHECK(weight_at(gate, kNowUs + kDayUs + i * kSecondUs) == TimeVerdict::far_ahead);
        CHECK(weight_at(gate, kNowUs + kDayUs + i * kSecondUs + 1) == TimeVerdict::far_ahead);
        CHECK(weight_at(gate, kNowUs + i * kSecondUs) == TimeVerdict::good);
    }
}

TEST_CASE("Wild stamps that disagree with one another are never believed") {
    TimeGate gate(kNowUs);
    for (int i = 1; i < 200; ++i) CHECK(weight_at(gate, kNowUs + i * kDayUs) == TimeVerdict::far_ahead);
    for (int i = 200; i > 0; --i) CHECK(weight_at(gate, kNowUs + i * kDayUs) == TimeVerdict::far_ahead);
    CHECK(weight_at(gate, kNowUs + 1) == TimeVerdict::good);
}

TEST_CASE("After a gap three later stamps confirm the first") {
    TimeGate gate(kNowUs);
    for (int i = 0; i < 3; ++i)
        CHECK(weight_at(gate, kNowUs + kDayUs + i * kSecondUs) == TimeVerdict::far_ahead);
    CHECK(weight_at(gate, kNowUs + kDayUs + 3 * kSecondUs) == TimeVerdict::good);
    CHECK(gate.newest_us() == kNowUs + kDayUs + 3 * kSecondUs);
}

TEST_CASE("A channel passes two hundred samples a second at any pace of its stamps") {
    for (const TimeUs step_us : {0, 1, 1000, 4000}) {
        INFO("a stamp each " << step_us << " us");
        TimeGate gate(kNowUs);
        long good = 0;
        for (int i = 0; i < 5000; ++i) {
            if (weight_at(gate, kNowUs + i * step_us) == TimeVerdict::good) ++good;
        }
        const long seconds = 1 + static_cast<long>(5000 * step_us / kSecondUs);
        CHECK(good <= 200 * seconds);
        CHECK(good >= 200);
        CHECK(gate.judge(kNowUs + 5000 * step_us, Channel::speed) == TimeVerdict::good);
    }
    TimeGate gate(kNowUs);
    for (int i = 0; i < 5000; ++i)
        REQUIRE(weight_at(gate, kNowUs + i * 20000) == TimeVerdict::good);  // 50 Hz
}
