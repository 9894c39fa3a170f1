#include "report/alarm_summary.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace podrate;
using namespace podrate::sim;

namespace {

AlarmEvent event(AlarmId alarm, int at_s, int for_s) {
    return {alarm, at_s * kSecondUs, (at_s + for_s) * kSecondUs};
}

const AlarmKindSum& sum_of(const AlarmSums& sums, AlarmId alarm) {
    return sums[static_cast<std::size_t>(alarm)];
}

}  // namespace

TEST_CASE("Alarms are counted by kind with the time they stood") {
    const AlarmSums sums =
        alarm_sums({event(AlarmId::loss_high, 100, 20), event(AlarmId::hopper_full, 130, 60),
                    event(AlarmId::loss_high, 500, 30)});
    CHECK(sum_of(sums, AlarmId::loss_high).count == 2);
    CHECK(sum_of(sums, AlarmId::loss_high).seconds == Approx(50.0));
    CHECK(sum_of(sums, AlarmId::hopper_full).count == 1);
    CHECK(sum_of(sums, AlarmId::rate_low).count == 0);
}

TEST_CASE("Three alarms of one kind within a minute chatter once until a minute passes without one") {
    const auto chatters = [](const std::vector<int>& starts_s) {
        std::vector<AlarmEvent> events;
        for (const int at_s : starts_s) events.push_back(event(AlarmId::loss_high, at_s, 1));
        return sum_of(alarm_sums(events), AlarmId::loss_high).chatters;
    };
    CHECK(chatters({}) == 0);
    CHECK(chatters({0, 30}) == 0);
    CHECK(chatters({0, 30, 61}) == 0);
    CHECK(chatters({0, 30, 60}) == 1);
    CHECK(chatters({0, 10, 20, 30, 40, 90}) == 1);
    CHECK(chatters({0, 10, 20, 100, 110, 120}) == 2);
}

TEST_CASE("Alarms of two kinds do not chatter together") {
    const AlarmSums sums =
        alarm_sums({event(AlarmId::hopper_nearly_full, 0, 1), event(AlarmId::hopper_full, 10, 1),
                    event(AlarmId::hopper_nearly_full, 20, 1)});
    for (const AlarmKindSum& sum : sums) CHECK(sum.chatters == 0);
}

TEST_CASE("How often alarms come is told of the time at work, not of the night in the yard") {
    MachineResult m;
    CHECK(alarms_per_10_min(m) == 0.0);
    m.seconds_by_state[static_cast<std::size_t>(WorkState::harvesting)] = 2700.0;
    m.seconds_by_state[static_cast<std::size_t>(WorkState::tipping)] = 300.0;
    m.seconds_by_state[static_cast<std::size_t>(WorkState::stopped)] = 30000.0;
    m.alarms.resize(10);
    CHECK(work_seconds(m) == Approx(3000.0));
    CHECK(alarms_per_10_min(m) == Approx(2.0));
}

TEST_CASE("Each alarm has its own words") {
    std::set<std::string> words;
    for (int i = 0; i < kAlarms; ++i) words.insert(words_for(static_cast<AlarmId>(i)));
    CHECK(words.size() == static_cast<std::size_t>(kAlarms));
}
