#include "map/place_track.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr TimeUs kStartUs = 1751032800LL * kSecondUs;

// A machine that works to and fro, stands now and then, and whose receiver is silent now and then.
PlaceTrack wandering(unsigned seed, int points) {
    std::mt19937 random(seed);
    std::normal_distribution<double> step(0.0, 1.2);
    PlaceTrack track;
    TimeUs time_us = kStartUs;
    sim::EastNorth at = {-200.0, 300.0};
    for (int i = 0; i < points; ++i) {
        track.add(time_us, at);
        time_us += random() % 50 == 0 ? 60 * kSecondUs : kSecondUs + static_cast<TimeUs>(random() % 200'000);
        if (random() % 10 == 0) continue;
        at = {at.east_m + step(random) + 0.3, at.north_m + step(random)};
    }
    return track;
}

// Each second of the way is looked at in a thousand parts: no formula of the tested code.
Passing by_trying(const PlaceTrack& track, sim::EastNorth place) {
    Passing best = {0, 1e9};
    const auto offer = [&](sim::EastNorth at, TimeUs time_us) {
        const double away_m = sim::length_of_m(at.east_m - place.east_m, at.north_m - place.north_m);
        if (away_m < best.away_m) best = {time_us, away_m};
    };
    for (std::size_t i = 0; i < track.size(); ++i) {
        const sim::EastNorth to = track.place(i);
        if (track.joined(i)) {
            const sim::EastNorth from = track.place(i - 1);
            for (int part = 0; part <= 1000; ++part) {
                const double share = part / 1000.0;
                const auto lasted_us = static_cast<double>(track.time_us(i) - track.time_us(i - 1));
                offer({from.east_m + share * (to.east_m - from.east_m),
                       from.north_m + share * (to.north_m - from.north_m)},
                      track.time_us(i - 1) + static_cast<TimeUs>(share * lasted_us));
            }
        }
        offer(to, track.time_us(i));
    }
    return best;
}

}  // namespace

TEST_CASE("The nearest passing is the one that trying every piece of the way finds") {
    const PlaceTrack track = wandering(7, 700);
    std::mt19937 random(8);
    std::uniform_real_distribution<double> east(-300.0, 200.0);
    std::uniform_real_distribution<double> north(150.0, 450.0);
    for (int i = 0; i < 60; ++i) {
        const sim::EastNorth place = {east(random), north(random)};
        const Passing tried = by_trying(track, place);
        const auto found = track.nearest(place);
        REQUIRE(found);
        CHECK(found->away_m <= tried.away_m + 1e-6);
        CHECK(found->away_m >= tried.away_m - 0.005);  // a thousandth of the longest step
        const auto there = track.place_at(found->time_us);
        REQUIRE(there);
        CHECK(sim::length_of_m(there->east_m - place.east_m, there->north_m - place.north_m) ==
              Approx(found->away_m).margin(1e-4));
    }
}

TEST_CASE("A machine's place between two points is on the line between them") {
    PlaceTrack track;
    track.add(kStartUs, {10.0, 20.0});
    track.add(kStartUs + 2 * kSecondUs, {14.0, 12.0});
    const auto at = track.place_at(kStartUs + kSecondUs / 2);
    REQUIRE(at);
    CHECK(at->east_m == Approx(11.0));
    CHECK(at->north_m == Approx(18.0));
    CHECK(track.place_at(kStartUs)->east_m == 10.0);
    CHECK(track.place_at(kStartUs + 2 * kSecondUs)->east_m == 14.0);
    CHECK_FALSE(track.place_at(kStartUs - 1));
    CHECK_FALSE(track.place_at(kStartUs + 2 * kSecondUs + 1));
}

TEST_CASE("Through a receiver's silence there is no way, neither in time nor in place") {
    PlaceTrack track;
    track.add(kStartUs, {0.0, 0.0});
    track.add(kStartUs + PlaceTrack::kLongestStepUs + 1, {100.0, 0.0});
    CHECK_FALSE(track.joined(1));
    CHECK_FALSE(track.place_at(kStartUs + kSecondUs));
    const auto nearest = track.nearest({40.0, 0.0});
    REQUIRE(nearest);
    CHECK(nearest->time_us == kStartUs);
    CHECK(nearest->away_m == Approx(40.0));
    PlaceTrack whole;
    whole.add(kStartUs, {0.0, 0.0});
    whole.add(kStartUs + PlaceTrack::kLongestStepUs, {100.0, 0.0});
    CHECK(whole.nearest({40.0, 0.0})->away_m == 0.0);
    CHECK(whole.nearest({40.0, 0.0})->time_us == kStartUs + 2 * kSecondUs);
}

TEST_CASE("A machine that stands is met when it came") {
    PlaceTrack track;
    for (int second = 0; second < 300; ++second)
        track.add(kStartUs + second * kSecondUs, {second < 100 ? 1.0 * second : 100.0, 0.0});
    CHECK(track.nearest({100.0, 3.0})->time_us == kStartUs + 100 * kSecondUs);
}

TEST_CASE("A place crossed twice is answered with the first time, and an empty track with nothing") {
    PlaceTrack track;
    for (int second = 0; second <= 200; ++second)
        track.add(kStartUs + second * kSecondUs, {second <= 100 ? 1.0 * second : 200.0 - second, 0.0});
    CHECK(track.nearest({30.0, 0.0})->time_us == kStartUs + 30 * kSecondUs);
    CHECK_FALSE(PlaceTrack().nearest({0.0, 0.0}));
    CHECK_FALSE(PlaceTrack().place_at(kStartUs));
}
