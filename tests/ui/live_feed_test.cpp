#include "live/live_feed.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr TimeUs kNoon = TimeUs{1751025600} * kSecondUs;

sim::LiveFigures good_at(TimeUs time_us, float flow_kgps) {
    sim::LiveFigures figures;
    figures.time_us = time_us;
    figures.input = sim::LiveInput::good;
    figures.bus = sim::LiveBus::good;
    figures.estimate.time_us = time_us;
    figures.estimate.started = true;
    figures.estimate.flow_kgps = static_cast<Real>(flow_kgps);
    figures.estimate.state = WorkState::harvesting;
    return figures;
}

LiveFeed feed_of_viner() {
    return {"viner_2", Parameters(), "Etc/UTC", "can0"};
}

}  // namespace

TEST_CASE("Before anything has come a live view says what it waits for") {
    const LiveFeed feed = feed_of_viner();
    const DriverFigures shown = feed.figures(kNoon, Speech());
    CHECK_FALSE(shown.known);
    CHECK(shown.no_data.what == "Waiting for can0");
    CHECK(feed.title(kNoon, Speech()) == "viner_2, live, no data");
}

TEST_CASE("A live view shows the newest figures for two seconds of the host's clock and not longer") {
    LiveFeed feed = feed_of_viner();
    feed.take(good_at(kNoon, 1.0F), Load(), kNoon + 5 * kSecondUs);
    const DriverFigures fresh = feed.figures(kNoon + 7 * kSecondUs, Speech());
    CHECK(fresh.known);
    CHECK(fresh.rate == "3.6");
    CHECK(fresh.clock == "12:00:00");
    CHECK(feed.title(kNoon + 7 * kSecondUs, Speech()) == "viner_2 12:00:00, live");
    const DriverFigures stale = feed.figures(kNoon + 7 * kSecondUs + 1, Speech());
    CHECK_FALSE(stale.known);
    CHECK(stale.rate.empty());
    CHECK(stale.no_data.what == "Nothing comes from can0");
    feed.take(good_at(kNoon + 9 * kSecondUs, 2.0F), Load(), kNoon + 14 * kSecondUs);
    CHECK(feed.figures(kNoon + 14 * kSecondUs, Speech()).rate == "7.2");
}

TEST_CASE("A live view says at once what the listener misses, and shows no figure of before") {
    LiveFeed feed = feed_of_viner();
    feed.take(good_at(kNoon, 1.0F), Load(), kNoon);
    sim::LiveFigures none;
    none.time_us = kNoon + 2 * kSecondUs;
    none.quiet_s = 2.0;
    none.input = sim::LiveInput::no_weight;
    none.bus = sim::LiveBus::good;
    feed.take(none, Load(), kNoon + 2 * kSecondUs);
    CHECK(feed.figures(kNoon + 2 * kSecondUs, Speech()).no_data.what == "No weight comes");
    CHECK_FALSE(feed.figures(kNoon + 2 * kSecondUs, Speech()).known);
    none.input = sim::LiveInput::silent;
    feed.take(none, Load(), kNoon + 3 * kSecondUs);
    CHECK(feed.figures(kNoon + 3 * kSecondUs, Speech()).no_data.what == "Nothing comes from can0");
    none.bus = sim::LiveBus::off;
    feed.take(none, Load(), kNoon + 4 * kSecondUs);
    CHECK(feed.figures(kNoon + 4 * kSecondUs, Speech()).no_data.what ==
          "The CAN controller is off: too many errors");
    feed.ended();
    feed.take(good_at(kNoon + 5 * kSecondUs, 1.0F), Load(), kNoon + 5 * kSecondUs);
    CHECK(feed.figures(kNoon + 5 * kSecondUs, Speech()).no_data.what == "can0 has ended");
}

TEST_CASE("A live view keeps loads and the alarm that stands, and no more of the past than it shows") {
    LiveFeed feed = feed_of_viner();
    Load load;
    load.number = 1;
    load.end_us = load.closed_us = kNoon;
    load.net_kg = Real(1900);
    const int last_s = 3 * 3600;
    for (int s = 0; s <= last_s; ++s) {
        sim::LiveFigures figures = good_at(kNoon + s * kSecondUs, 1.0F);
        if (s > last_s - 10) figures.estimate.alarms = 1U << static_cast<unsigned>(AlarmId::hopper_full);
        feed.take(figures, load, kNoon + s * kSecondUs);
    }
    const DriverFigures shown = feed.figures(kNoon + last_s * kSecondUs, Speech());
    REQUIRE(shown.loads.size() == 1);
    CHECK(shown.loads[0].mass == "1.90 t");
    CHECK(shown.alarm.shown);
    CHECK(shown.alarm.alarm == AlarmId::hopper_full);
    REQUIRE_FALSE(shown.recent.empty());
    CHECK(shown.recent.front().minutes_ago <= shown.recent_minutes);
}
