// One alarm: each transition, random runs against a plain reference, published false alarm rates.
#include "podrate/alarm/alarm.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <set>
#include <vector>

#include "core/alarm_reference.hpp"

using namespace podrate;
using test::AlarmReference;
using test::us;

namespace {

constexpr TimeUs kStartUs = 1751032800 * kSecondUs;

AlarmLimits limits_of(double limit, double deadband, double on_delay_s, double off_delay_s) {
    AlarmLimits limits;
    limits.limit = static_cast<Real>(limit);
    limits.deadband = static_cast<Real>(deadband);
    limits.on_delay_s = static_cast<Real>(on_delay_s);
    limits.off_delay_s = static_cast<Real>(off_delay_s);
    return limits;
}

AlarmLimits latched(AlarmLimits limits) {
    limits.latched = true;
    return limits;
}

// An alarm and the time, by default one value a second.
class Desk {
  public:
    explicit Desk(const AlarmLimits& limits, double step_s = 1.0) : alarm(limits), step_us_(us(step_s)) {}
    AlarmState show(double value, int times = 1) { return judge(value, true, false, times); }
    AlarmState unknown(double value, int times = 1) { return judge(value, false, false, times); }
    AlarmState suppress(double value, int times = 1) { return judge(value, true, true, times); }
    // Shows it until the condition changes; gives the time since the first of these values, s.
    double until_change(double value) {
        const bool before = alarm.active();
        show(value);
        const TimeUs first_us = now_us;
        while (alarm.active() == before && now_us - first_us < 1000 * kSecondUs) show(value);
        return static_cast<double>(now_us - first_us) / 1e6;
    }
    Alarm alarm;
    TimeUs now_us = kStartUs;

  private:
    AlarmState judge(double value, bool known, bool suppressed, int times) {
        for (int i = 0; i < times; ++i) {
            now_us += step_us_;
            alarm.judge(now_us, static_cast<Real>(value), known, suppressed);
        }
        return alarm.state();
    }
    TimeUs step_us_;
};

bool same(const Alarm& alarm, const AlarmReference& reference) {
    bool chattering = false;
    const std::uint32_t chatters = reference.chatters(chattering);
    const std::vector<TimeUs>& activated_us = reference.activated_us();
    return alarm.state() == reference.state() && alarm.active() == reference.active() &&
           alarm.shown() == reference.shown() && alarm.activations() == activated_us.size() &&
           alarm.since_us() == (activated_us.empty() ? 0 : activated_us.back()) &&
           alarm.chattering() == chattering && alarm.chatter_count() == chatters;
}

class Numbers {
  public:
    explicit Numbers(std::uint32_t seed) : bits_(seed) {}
    double share() { return (static_cast<double>(bits_()) + 0.5) / 4294967296.0; }
    bool chance(double probability) { return share() < probability; }
    template <std::size_t n>
    double one_of(const double (&values)[n]) {
        return values[bits_() % n];
    }

  private:
    std::mt19937 bits_;
};

AlarmLimits random_limits(Numbers& numbers) {
    const double delays_s[] = {0.0, 0.02, 1.0, 3.0, 5.0, 10.0};
    AlarmLimits limits =
        limits_of(1.0, numbers.one_of({0.0, 0.5, 1.0}), numbers.one_of(delays_s), numbers.one_of(delays_s));
    limits.high = numbers.chance(0.5);
    limits.latched = numbers.chance(0.5);
    return limits;
}

}  // namespace

TEST_CASE("An alarm is normal until something is past its limit") {
    Desk desk(limits_of(10.0, 2.0, 0.0, 0.0));
    CHECK(desk.alarm.state() == AlarmState::normal);
    CHECK(desk.show(10.0) == AlarmState::normal);
    CHECK_FALSE(desk.alarm.shown());
    CHECK(desk.alarm.since_us() == 0);
    CHECK(desk.show(10.01) == AlarmState::unacknowledged);
    CHECK(desk.alarm.active());
    CHECK(desk.alarm.shown());
    CHECK(desk.alarm.since_us() == desk.now_us);
    CHECK(desk.alarm.activations() == 1);
}

TEST_CASE("A value returns only by the deadband") {
    for (const bool high : {true, false}) {
        const double side = high ? 1.0 : -1.0;
        AlarmLimits limits = limits_of(side * 10.0, 2.0, 0.0, 0.0);
        limits.high = high;
        Desk desk(limits);
        CHECK(desk.show(side * 11.0) == AlarmState::unacknowledged);
        CHECK(desk.show(side * 8.5) == AlarmState::unacknowledged);
        CHECK(desk.show(side * 8.0) == AlarmState::normal);
        CHECK(desk.show(side * 9.5) == AlarmState::normal);
    }
}

TEST_CASE("A delay takes its time at any pace and a break starts it anew") {
    const struct {
        double step_s;
        double on_s;
        double off_s;
    } paces[] = {{0.02, 12.0, 7.0}, {1.0, 12.0, 7.0}, {5.0, 15.0, 10.0}, {30.0, 60.0, 30.0}};
    for (const auto& pace : paces) {
        INFO("a value each " << pace.step_s << " s");
        Desk desk(limits_of(10.0, 2.0, 12.0, 7.0), pace.step_s);
        desk.show(11.0);
        desk.show(9.0);
        CHECK(desk.until_change(11.0) == Approx(pace.on_s));
        desk.show(7.0);
        desk.show(9.0);
        CHECK(desk.until_change(7.0) == Approx(pace.off_s));
    }
}

TEST_CASE("Acknowledging takes what is shown") {
    Desk desk(limits_of(10.0, 0.0, 0.0, 0.0));
    desk.alarm.acknowledge();
    CHECK(desk.show(11.0) == AlarmState::unacknowledged);
    desk.alarm.shelve(desk.now_us, Real(60));
    desk.alarm.acknowledge();
    desk.alarm.unshelve();
    CHECK(desk.alarm.state() == AlarmState::unacknowledged);
    CHECK_FALSE(desk.alarm.acknowledged());
    desk.alarm.acknowledge();
    CHECK(desk.alarm.state() == AlarmState::acknowledged);
    CHECK(desk.alarm.acknowledged());
    CHECK(desk.alarm.shown());
    CHECK(desk.show(9.0) == AlarmState::normal);
    CHECK_FALSE(desk.alarm.acknowledged());
    CHECK(desk.show(11.0) == AlarmState::unacknowledged);
}

TEST_CASE("A latched alarm stays until acknowledged and another does not") {
    Desk desk(latched(limits_of(10.0, 0.0, 0.0, 0.0)));
    desk.show(11.0);
    CHECK(desk.show(9.0) == AlarmState::returned_unacknowledged);
    CHECK(desk.alarm.shown());
    CHECK_FALSE(desk.alarm.active());
    CHECK(desk.show(11.0) == AlarmState::unacknowledged);
    CHECK(desk.show(9.0) == AlarmState::returned_unacknowledged);
    desk.alarm.acknowledge();
    CHECK(desk.alarm.state() == AlarmState::normal);
    desk.show(11.0);
    desk.alarm.acknowledge();
    CHECK(desk.show(9.0) == AlarmState::normal);

    Desk other(limits_of(10.0, 0.0, 0.0, 0.0));
    other.show(11.0);
    CHECK(other.show(9.0) == AlarmState::normal);
}

TEST_CASE("A shelf ends by itself and hides what goes on below") {
    Desk desk(latched(limits_of(10.0, 0.0, 0.0, 0.0)));
    desk.show(11.0);
    CHECK(desk.alarm.shelved_until_us() == 0);
    desk.alarm.shelve(desk.now_us, Real(5));
    const TimeUs until_us = desk.now_us + 5 * kSecondUs;
    CHECK(desk.alarm.state() == AlarmState::shelved);
    CHECK(desk.show(9.0) == AlarmState::shelved);
    CHECK(desk.alarm.shelved_until_us() == until_us);
    CHECK(desk.show(11.0, 3) == AlarmState::shelved);
    CHECK_FALSE(desk.alarm.shown());
    CHECK(desk.alarm.active());
    CHECK(desk.alarm.activations() == 2);
    CHECK(desk.show(11.0) == AlarmState::unacknowledged);
    CHECK(desk.alarm.shelved_until_us() == 0);
    desk.alarm.shelve(desk.now_us, Real(5));
    desk.show(9.0, 4);
    desk.alarm.shelve(desk.now_us, Real(5));
    CHECK(desk.show(9.0, 4) == AlarmState::shelved);
    CHECK(desk.show(9.0) == AlarmState::returned_unacknowledged);
    for (const double nothing_s : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN()}) {
        desk.alarm.shelve(desk.now_us, static_cast<Real>(nothing_s));
        CHECK(desk.alarm.state() == AlarmState::returned_unacknowledged);
    }
    desk.alarm.shelve(desk.now_us, std::numeric_limits<Real>::infinity());
    CHECK(desk.show(9.0, 43199) == AlarmState::shelved);
    CHECK(desk.show(9.0) == AlarmState::returned_unacknowledged);
}

TEST_CASE("A suppressed alarm begins afresh") {
    Desk desk(limits_of(10.0, 0.0, 3.0, 3.0));
    desk.show(11.0, 3);
    CHECK(desk.suppress(11.0) == AlarmState::suppressed);
    CHECK(desk.until_change(11.0) == Approx(3.0));
    desk.alarm.acknowledge();
    CHECK(desk.suppress(11.0, 10) == AlarmState::suppressed);
    CHECK_FALSE(desk.alarm.active());
    CHECK_FALSE(desk.alarm.shown());
    CHECK(desk.show(11.0) == AlarmState::normal);
    CHECK(desk.show(11.0, 3) == AlarmState::unacknowledged);

    Desk kept(latched(limits_of(10.0, 0.0, 0.0, 0.0)));
    kept.show(11.0);
    kept.alarm.shelve(kept.now_us, Real(5));
    CHECK(kept.suppress(11.0) == AlarmState::suppressed);
    CHECK(kept.show(9.0) == AlarmState::shelved);
    CHECK(kept.show(9.0, 3) == AlarmState::returned_unacknowledged);
}

TEST_CASE("An unknown value leaves the condition as it is and delays stand still") {
    Desk desk(limits_of(10.0, 0.0, 3.0, 3.0));
    desk.show(11.0, 3);
    CHECK(desk.unknown(11.0, 100) == AlarmState::normal);
    CHECK(desk.show(11.0) == AlarmState::normal);
    CHECK(desk.show(11.0) == AlarmState::unacknowledged);
    CHECK(desk.unknown(0.0, 100) == AlarmState::unacknowledged);
    CHECK(desk.show(std::numeric_limits<double>::quiet_NaN(), 100) == AlarmState::unacknowledged);
    CHECK(desk.until_change(9.0) == Approx(3.0));
    desk.show(11.0, 3);
    CHECK(desk.show(std::numeric_limits<double>::quiet_NaN(), 100) == AlarmState::normal);
    CHECK(desk.show(11.0, 2) == AlarmState::unacknowledged);
    CHECK(desk.show(std::numeric_limits<double>::infinity(), 4) == AlarmState::unacknowledged);
}

TEST_CASE("A silence counts for ten seconds of a delay and a time that goes back for none") {
    Desk desk(limits_of(10.0, 0.0, 15.0, 0.0));
    desk.show(11.0);
    desk.now_us += us(4000.0);
    CHECK(desk.show(11.0) == AlarmState::normal);
    desk.now_us -= us(100.0);
    CHECK(desk.show(11.0) == AlarmState::normal);
    CHECK(desk.until_change(11.0) == Approx(4.0));
}

TEST_CASE("Limits that make no sense are taken as the nearest that do") {
    Desk desk(limits_of(10.0, -2.0, -5.0, std::numeric_limits<double>::infinity()));
    CHECK(desk.show(11.0) == AlarmState::unacknowledged);
    CHECK(desk.show(11.0, 3600) == AlarmState::unacknowledged);
    CHECK(desk.show(10.0, 3600) == AlarmState::unacknowledged);
    CHECK(desk.show(10.0) == AlarmState::normal);
}

TEST_CASE("Three activations within a minute are chatter until a quiet minute") {
    Desk desk(limits_of(10.0, 0.0, 0.0, 0.0));
    const auto blink = [&desk](int period) {
        desk.show(11.0);
        desk.show(9.0, period - 1);
    };
    for (int i = 0; i < 10; ++i) blink(30);
    CHECK_FALSE(desk.alarm.chattering());
    blink(60);
    blink(20);
    blink(20);
    CHECK_FALSE(desk.alarm.chattering());
    desk.show(11.0);
    CHECK(desk.alarm.chattering());
    desk.show(9.0, 59);
    CHECK(desk.alarm.chattering());
    desk.show(9.0);
    CHECK_FALSE(desk.alarm.chattering());
    for (int i = 0; i < 10; ++i) blink(25);
    CHECK(desk.alarm.chattering());
    CHECK(desk.alarm.chatter_count() == 2);
    CHECK(desk.alarm.activations() == 24);
}

// OPC 10000-9 (OPC UA Part 9), 5.8.2 and its example B.1.5, told there in words; the numbers are ours.
TEST_CASE("Delays and deadband quiet a value as in the example of OPC UA Part 9") {
    // A motor's current at its start: far past the limit, but for less than the on-delay. A lasting one
    // tells.
    Desk motor(limits_of(100.0, 5.0, 3.0, 2.0));
    motor.show(600.0, 3);
    CHECK(motor.show(60.0, 10) == AlarmState::normal);
    CHECK(motor.show(120.0, 4) == AlarmState::unacknowledged);
    motor.alarm.acknowledge();
    // Noise about the limit that does not leave the deadband changes nothing.
    for (const double value : {102.0, 96.0, 101.0, 95.5, 99.0}) {
        CHECK(motor.show(value, 5) == AlarmState::acknowledged);
    }
    // Below the deadband for less than the off-delay, too; as long as that ends it.
    motor.show(90.0, 2);
    CHECK(motor.show(101.0) == AlarmState::acknowledged);
    CHECK(motor.show(90.0, 2) == AlarmState::acknowledged);
    CHECK(motor.show(90.0) == AlarmState::normal);
    CHECK(motor.alarm.activations() == 1);
}

TEST_CASE("Random runs go as the plain reference says") {
    std::set<AlarmState> states;
    std::uint32_t chatters = 0;
    for (std::uint32_t seed = 1; seed <= 300; ++seed) {
        Numbers numbers(seed);
        const AlarmLimits limits = random_limits(numbers);
        const double step_s = numbers.one_of({0.02, 1.0, 5.0});
        Alarm alarm(limits);
        AlarmReference reference(limits);
        TimeUs now_us = kStartUs;
        double value = 0.0;
        bool suppressed = false;
        for (int i = 0; i < 400; ++i) {
            if (numbers.chance(0.4)) value = numbers.one_of({-1.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0});
            if (numbers.chance(suppressed ? 0.3 : 0.03)) suppressed = !suppressed;
            const bool known = numbers.chance(0.9);
            now_us += us(numbers.chance(0.03) ? numbers.one_of({0.0, 9.0, 300.0}) : step_s);
            alarm.judge(now_us, static_cast<Real>(value), known, suppressed);
            reference.judge(now_us, value, known, suppressed);
            if (numbers.chance(0.1)) {
                alarm.acknowledge();
                reference.acknowledge();
            }
            if (numbers.chance(0.03)) {
                const double for_s = numbers.one_of({0.5, 7.0, 20.0});
                alarm.shelve(now_us, static_cast<Real>(for_s));
                reference.shelve(for_s);
            }
            if (numbers.chance(0.02)) {
                alarm.unshelve();
                reference.unshelve();
            }
            INFO("seed " << seed << ", value " << i);
            REQUIRE(same(alarm, reference));
            states.insert(alarm.state());
        }
        chatters += alarm.chatter_count();
    }
    CHECK(states.size() == 6);
    CHECK(chatters > 50);
}

// Independent values, each past the limit with probability p: the share of time in alarm is A / (A + B),
// A = p^n sum_{i<m} (1-p)^i, B = (1-p)^m sum_{j<n} p^j, where n values raise the alarm and m end it. At one
// value a second n of them span n - 1 s, so that is the on-delay; so for m.
TEST_CASE("The share of false alarms is the published one") {
    const struct {
        double p;
        int n;
        int m;
        double share;
    } table[] = {{0.05, 1, 1, 0.05}, {0.05, 3, 1, 1.25e-4}, {0.05, 3, 3, 3.94976e-4}, {0.2, 3, 3, 0.0298289}};
    constexpr int kBatches = 200;
    constexpr int kValues = 40000;
    for (const auto& row : table) {
        INFO("p " << row.p << ", n " << row.n << ", m " << row.m);
        double a = 0.0;
        double b = 0.0;
        for (int i = 0; i < row.m; ++i) a += std::pow(row.p, row.n) * std::pow(1.0 - row.p, i);
        for (int j = 0; j < row.n; ++j) b += std::pow(1.0 - row.p, row.m) * std::pow(row.p, j);
        CHECK(a / (a + b) == Approx(row.share).epsilon(2e-6));
        Numbers numbers(7);
        Desk desk(limits_of(0.5, 0.0, row.n - 1, row.m - 1));
        double sum = 0.0;
        double sum_of_squares = 0.0;
        for (int batch = 0; batch < kBatches; ++batch) {
            int active = 0;
            for (int i = 0; i < kValues; ++i) {
                desk.show(numbers.chance(row.p) ? 1.0 : 0.0);
                active += desk.alarm.active() ? 1 : 0;
            }
            const double share = static_cast<double>(active) / kValues;
            sum += share;
            sum_of_squares += share * share;
        }
        const double mean = sum / kBatches;
        const double error = std::sqrt((sum_of_squares / kBatches - mean * mean) / kBatches);
        INFO(mean << " with standard error " << error);
        CHECK(error < 0.06 * row.share);
        CHECK(std::abs(mean - row.share) < 4.0 * error);
    }
}
