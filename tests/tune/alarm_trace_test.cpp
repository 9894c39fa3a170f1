// Alarms judged anew from a trace are those of a replay.
#include "tune/alarm_trace.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <memory>
#include <random>

#include "day/day.hpp"
#include "tune/tune_days.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::traced_replay;

namespace {

bool same_events(const std::vector<AlarmEvent>& a, const std::vector<AlarmEvent>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const AlarmEvent& x, const AlarmEvent& y) {
        return x.alarm == y.alarm && x.start_us == y.start_us && x.end_us == y.end_us;
    });
}

// Near what the day shows, so that alarms come and go: limits and deadbands anywhere in the lower part of
// their range, delays within 20 s.
Parameters with_random_alarms(const Parameters& own, std::mt19937& random) {
    Parameters p = own;
    for (const ParameterInfo& info : kParameterTable) {
        if (!touches_alarms_alone(info)) continue;
        const bool delay = std::string(info.unit) == "s";
        const double u = static_cast<double>(random()) / 4294967296.0;
        const double reach = delay ? 20.0 : (info.high - info.low) * (info.high > 2.0 ? 0.15 : 0.5);
        double value = info.low + u * reach;
        if (info.decimals == 0 && info.high <= 2.0)
            value = std::floor(info.low + u * (info.high - info.low + 1.0));
        p.*info.member = static_cast<Real>(value);
    }
    REQUIRE(first_invalid(p) == nullptr);
    return p;
}

}  // namespace

TEST_CASE("A trace gives a replay's alarms, whatever the limits, deadbands, delays and latches") {
    const Day day = read_day(std::string(PODRATE_SOURCE_DIR) + "/demo_logs/harrowmere");
    std::mt19937 random(7);
    std::size_t events = 0;
    int unlike = 0;
    for (const std::size_t m : {0U, 1U, 2U}) {
        AlarmTrace trace;
        const MachineResult told = traced_replay(day.machines[m], trace);
        REQUIRE(told.usable);
        REQUIRE(same_events(alarms_of(trace, day.machines[m].parameters), told.alarms));
        if (m == 0) continue;
        for (int i = 0; i < 2; ++i) {
            Machine tried = day.machines[m];
            tried.parameters = with_random_alarms(tried.parameters, random);
            const MachineResult replayed = replay_machine(tried, {}, nullptr);
            CHECK(same_events(alarms_of(trace, tried.parameters), replayed.alarms));
            events += replayed.alarms.size();
            unlike += same_events(replayed.alarms, told.alarms) ? 0 : 1;
        }
    }
    CHECK(events > 100);
    CHECK(unlike == 4);
}

TEST_CASE("A bus's trace gives its replay's alarms, too") {
    const Day day = read_day(std::string(PODRATE_SOURCE_DIR) + "/demo_logs/harrowmere_bus");
    AlarmTrace trace;
    const MachineResult told = traced_replay(day.machines[0], trace);
    REQUIRE(told.usable);
    CHECK(trace.size() > 5000);
    CHECK(same_events(alarms_of(trace, day.machines[0].parameters), told.alarms));
    Machine tried = day.machines[0];
    tried.parameters.loss_high_share = Real(0.04);
    tried.parameters.rate_low_on_s = Real(0);
    const MachineResult replayed = replay_machine(tried, {}, nullptr);
    CHECK(replayed.alarms.size() > told.alarms.size());
    CHECK(same_events(alarms_of(trace, tried.parameters), replayed.alarms));
}

TEST_CASE("What touches alarms alone is known from what it does") {
    int alone = 0;
    for (const ParameterInfo& info : kParameterTable) {
        const std::string name = info.name;
        bool of_an_alarm = name == "alarms_latched";
        for (int i = 0; i < kAlarms; ++i)
            of_an_alarm =
                of_an_alarm || name.rfind(std::string(name_of(static_cast<AlarmId>(i))) + "_", 0) == 0;
        INFO(name);
        // The sum that this limit is set against stops at twice the limit.
        CHECK(touches_alarms_alone(info) == (of_an_alarm && name != "drum_blocking_sd"));
        alone += touches_alarms_alone(info) ? 1 : 0;
    }
    CHECK(alone == 44);
}

TEST_CASE("No parameter that touches alarms alone changes what they look at, and the drum's limit does") {
    const test::TempFolder folder;
    const Day day = read_day(test::write_tune_day(folder, "day", 3, 0.5));
    const auto scenes = [&day](const Parameters& parameters) {
        Machine tried = day.machines[0];
        tried.parameters = parameters;
        auto trace = std::make_unique<AlarmTrace>();
        REQUIRE(traced_replay(tried, *trace).usable);
        return trace;
    };
    const auto same_scenes = [](const AlarmTrace& a, const AlarmTrace& b) {
        if (a.size() != b.size()) return false;
        for (std::size_t i = 0; i < a.size(); ++i) {
            const AlarmScene x = a.scene(i);
            const AlarmScene y = b.scene(i);
            if (x.now_us != y.now_us || x.state != y.state || x.loss_share != y.loss_share ||
                x.rate_share != y.rate_share || x.rate_wanted != y.rate_wanted ||
                x.level_share != y.level_share || x.level_known != y.level_known ||
                x.blocking_sd != y.blocking_sd || x.leak_kg != y.leak_kg ||
                x.leak_watched != y.leak_watched || x.weight_fault != y.weight_fault ||
                x.speed_fault != y.speed_fault || x.tilt_fault != y.tilt_fault ||
                x.oldest_min != y.oldest_min || x.holds_peas != y.holds_peas)
                return false;
        }
        return true;
    };
    const Parameters own = day.machines[0].parameters;
    const auto as_they_are = scenes(own);
    std::mt19937 random(3);
    CHECK(same_scenes(*as_they_are, *scenes(with_random_alarms(own, random))));
    Parameters blocked = own;
    blocked.drum_blocking_sd = Real(2);
    CHECK_FALSE(same_scenes(*as_they_are, *scenes(blocked)));
}

TEST_CASE("The time in which an alarm could come is that of the states that do not suppress it") {
    AlarmTrace trace;
    AlarmScene scene;
    scene.rate_wanted = true;
    const auto add = [&](WorkState state, int seconds) {
        scene.state = state;
        for (int i = 0; i < seconds; ++i) {
            scene.now_us += kSecondUs;
            trace.on_scene(scene);
        }
    };
    scene.now_us = 1000 * kSecondUs;
    add(WorkState::harvesting, 1800);
    add(WorkState::tipping, 900);
    add(WorkState::stopped, 900);
    const auto hours = judged_hours(trace);
    const auto of = [&hours](AlarmId id) { return hours[static_cast<std::size_t>(id)]; };
    CHECK(of(AlarmId::loss_high) == Approx(0.5).margin(0.0003));
    CHECK(of(AlarmId::rate_low) == Approx(0.5).margin(0.0003));
    CHECK(of(AlarmId::hopper_full) == Approx(0.75).margin(0.0003));
    CHECK(of(AlarmId::hopper_leak) == 0.0);
    CHECK(of(AlarmId::weight_fault) == Approx(1.0).margin(0.0003));
    CHECK(of(AlarmId::peas_old) == 0.0);
}
