#include "podrate/work/tip_watch.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <vector>

using namespace podrate;

namespace {

using Event = TipWatch::Event;

// Feeds a weight that follows corner points (seconds, kg), at 10 Hz, against a prediction that stands still.
struct Corner {
    double at_s;
    double kg;
};

std::vector<Event> events_of(const std::vector<Corner>& corners) {
    TipWatch watch{Parameters{}};
    std::vector<Event> events;
    double predicted_kg = corners.front().kg;
    std::size_t piece = 0;
    for (int i = 0; i * 0.1 <= corners.back().at_s; ++i) {
        const double t = i * 0.1;
        while (piece + 2 < corners.size() && t > corners[piece + 1].at_s) ++piece;
        const Corner& a = corners[piece];
        const Corner& b = corners[piece + 1];
        const double kg = a.kg + (b.kg - a.kg) * (t - a.at_s) / (b.at_s - a.at_s);
        // While it falls the filter is told the weight anew, so that its prediction follows.
        if (watch.falling()) predicted_kg = kg;
        const double residual_kg = kg - predicted_kg;
        const Event event =
            watch.watch(i * 100000, static_cast<Real>(kg), static_cast<Real>(residual_kg), Real(2));
        if (event != Event::none) events.push_back(event);
    }
    return events;
}

}  // namespace

TEST_CASE("A tip begins and comes to its bottom and settles") {
    CHECK(events_of({{0, 1500}, {10, 1500}, {40, 0}, {60, 0}}) ==
          std::vector<Event>{Event::began, Event::bottom, Event::settled});
}

TEST_CASE("A tip that leaves peas in is a tip") {
    CHECK(events_of({{0, 1500}, {10, 1500}, {20, 900}, {40, 900}}) ==
          std::vector<Event>{Event::began, Event::bottom, Event::settled});
}

TEST_CASE("A weight that only sinks slowly is no tip") {
    // Below tip_rate_kgps, 8 kg/s by default.
    CHECK(events_of({{0, 1500}, {10, 1500}, {210, 500}, {230, 500}}).empty());
}

TEST_CASE("A fall smaller than the noise allows is no tip") {
    CHECK(events_of({{0, 1500}, {10, 1500}, {10.5, 1485}, {30, 1485}}).empty());
}

TEST_CASE("A dip of a third of a second is no tip") {
    CHECK(events_of({{0, 1500}, {10, 1500}, {10.1, 500}, {10.3, 500}, {10.4, 1500}, {30, 1500}}).empty());
}

TEST_CASE("A second fall while the rest settles belongs to the same tip") {
    const std::vector<Event> events =
        events_of({{0, 1500}, {10, 1500}, {20, 900}, {23.0, 900}, {33.0, 0}, {60, 0}});
    CHECK(std::count(events.begin(), events.end(), Event::began) == 1);
    CHECK(std::count(events.begin(), events.end(), Event::settled) == 1);
    CHECK(events.back() == Event::settled);
}

TEST_CASE("The time a tip was first suspected is when the weight began to fall") {
    TipWatch watch{Parameters{}};
    for (int i = 0; i < 300; ++i) {
        const double t = i * 0.1;
        const double kg = t < 10.0 ? 1500.0 : 1500.0 - 50.0 * (t - 10.0);
        if (watch.watch(i * 100000, static_cast<Real>(kg), static_cast<Real>(kg - 1500.0), Real(2)) ==
            Event::began) {
            break;
        }
    }
    REQUIRE(watch.falling());
    CHECK(watch.suspected_us() >= 10 * kSecondUs);
    CHECK(watch.suspected_us() <= 11 * kSecondUs);
}

TEST_CASE("Reset forgets a tip that had begun") {
    TipWatch watch{Parameters{}};
    for (int i = 0; i < 50; ++i) {
        const auto kg = static_cast<Real>(1500.0 - 5.0 * i);
        watch.watch(i * 100000, kg, kg - Real(1500), Real(2));
    }
    REQUIRE(watch.falling());
    watch.reset();
    CHECK(watch.phase() == TipWatch::Phase::idle);
    CHECK_FALSE(watch.suspicious());
    CHECK(watch.watch(6000000, Real(100), Real(0), Real(2)) == Event::none);
    CHECK(watch.smoothed_kg() == Real(100));
}
