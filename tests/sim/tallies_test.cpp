#include "replay/tallies.hpp"

#include <catch2/catch.hpp>
#include <iterator>

#include "replay/alarm_log.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

LogRow at(double s) {
    LogRow row;
    row.time_us = static_cast<TimeUs>(s * 1e6);
    return row;
}

Estimate in(WorkState state) {
    Estimate e;
    e.started = true;
    e.state = state;
    return e;
}

}  // namespace

TEST_CASE("Seconds count for the state they began in and gaps for none") {
    StateClock clock;
    clock.on_row(at(0), in(WorkState::harvesting));
    clock.on_row(at(5), in(WorkState::turning));
    clock.on_row(at(7), in(WorkState::harvesting));
    clock.on_row(at(17), in(WorkState::harvesting));
    clock.on_row(at(117), in(WorkState::stopped));
    CHECK(clock.seconds(WorkState::harvesting) == 15.0);
    CHECK(clock.seconds(WorkState::turning) == 2.0);
    CHECK(clock.seconds(WorkState::stopped) == 0.0);
    CHECK(clock.seconds_without_data() == 100.0);
}

TEST_CASE("Minutes end with what stood at their end and the state that filled them") {
    MinuteTrack track;
    Estimate e = in(WorkState::harvesting);
    for (int s = 0; s < 150; ++s) {
        e.harvested_kg = static_cast<Real>(s);
        e.state = s >= 70 && s < 90 ? WorkState::turning : WorkState::harvesting;
        track.on_row(at(s), e);
    }
    track.finish();
    REQUIRE(track.minutes().size() == 3);
    CHECK(track.minutes()[0].harvested_kg == 59.0);
    CHECK(track.minutes()[1].minute == 1);
    CHECK(track.minutes()[1].harvested_kg == 119.0);
    CHECK(track.minutes()[1].state == WorkState::harvesting);
    CHECK(track.minutes()[2].harvested_kg == 149.0);
}

TEST_CASE("An alarm is an event each time it comes and lasts until the row that shows it no more") {
    AlarmLog log;
    const auto show = [&log](double s, unsigned alarms) {
        Estimate e = in(WorkState::harvesting);
        e.alarms = static_cast<std::uint16_t>(alarms);
        log.on_row(at(s), e);
    };
    constexpr unsigned kFull = 1U << static_cast<int>(AlarmId::hopper_full);
    constexpr unsigned kOld = 1U << static_cast<int>(AlarmId::peas_old);
    show(0, 0);
    show(1, kFull);
    show(2, kFull | kOld);
    show(5, kOld);
    show(6, kOld | kFull);
    show(7, kOld);
    show(9, kOld);
    log.finish();
    const struct {
        AlarmId alarm;
        double start_s;
        double end_s;
    } expected[] = {{AlarmId::hopper_full, 1, 5}, {AlarmId::peas_old, 2, 9}, {AlarmId::hopper_full, 6, 7}};
    REQUIRE(log.events().size() == std::size(expected));
    for (std::size_t i = 0; i < std::size(expected); ++i) {
        INFO("event " << i);
        CHECK(log.events()[i].alarm == expected[i].alarm);
        CHECK(log.events()[i].start_us == at(expected[i].start_s).time_us);
        CHECK(log.events()[i].end_us == at(expected[i].end_s).time_us);
    }
}

TEST_CASE("Without an alarm there is no event") {
    AlarmLog log;
    log.on_row(at(0), in(WorkState::stopped));
    log.on_row(at(10), in(WorkState::harvesting));
    log.finish();
    CHECK(log.events().empty());
}
