#include "podrate/loss/passed_places.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate;

namespace {

constexpr TimeUs kBeganUs = 1751032800 * kSecondUs;

TimeUs after_s(double s) {
    return kBeganUs + static_cast<TimeUs>(s * 1e6);
}

// What passed grows with the time, so that it tells where a figure comes from.
Real passed_at(TimeUs cut_us) {
    return static_cast<Real>(cut_us - kBeganUs) / Real(1e6);
}

PassedPlace place_at(TimeUs cut_us) {
    PassedPlace place;
    place.cut_us = cut_us;
    place.area_rate_m2ps = passed_at(cut_us) + Real(1);
    place.passed_kgpm2 = passed_at(cut_us);
    place.ln_excess = passed_at(cut_us) + Real(2);
    return place;
}

// Crop cut without a break over so many seconds, told ten times a second.
void cut(PassedPlaces& places, long from_s, long to_s) {
    for (long step = from_s * 10; step <= to_s * 10; ++step) {
        places.remember(place_at(after_s(0.1 * static_cast<double>(step))));
    }
}

bool found(const PassedPlaces& places, double s) {
    PassedPlace place;
    return places.at(after_s(s), place);
}

// An empty one where there is none.
PassedPlace the_place(const PassedPlaces& places, double s) {
    PassedPlace place;
    return places.at(after_s(s), place) ? place : PassedPlace{};
}

}  // namespace

TEST_CASE("The first place is found as soon as it is remembered") {
    PassedPlaces places;
    CHECK_FALSE(found(places, 0.0));
    places.remember(place_at(after_s(5.0)));
    CHECK(the_place(places, 0.0).cut_us == after_s(5.0));
}

TEST_CASE("A tray finds the place cut nearest to its time") {
    PassedPlaces places;
    cut(places, 0, 304);
    for (double s = 0.0; s <= 304.0; s += 3.7) {
        INFO("tray at " << s << " s");
        const PassedPlace place = the_place(places, s);
        // One is kept every eight seconds: none is farther off than half of that.
        CHECK(std::abs(static_cast<double>(place.cut_us - after_s(s)) / 1e6) <= 4.0);
        CHECK(place.area_rate_m2ps == place_at(place.cut_us).area_rate_m2ps);
        CHECK(place.ln_excess == place_at(place.cut_us).ln_excess);
    }
}

TEST_CASE("What passed is the mean with the place after it, but not across a break") {
    PassedPlaces places;
    cut(places, 0, 80);
    cut(places, 200, 240);
    CHECK(the_place(places, 40.0).passed_kgpm2 == Real(44));
    CHECK(the_place(places, 72.0).passed_kgpm2 == Real(76));
    // The last before the break, and the newest of all, stand alone.
    CHECK(the_place(places, 80.0).passed_kgpm2 == Real(80));
    CHECK(the_place(places, 240.0).passed_kgpm2 == Real(240));
}

TEST_CASE("A tray more than half a minute from any cut has no place") {
    PassedPlaces places;
    cut(places, 0, 40);
    cut(places, 200, 240);
    CHECK(found(places, -30.0));
    CHECK_FALSE(found(places, -30.1));
    CHECK(found(places, 70.0));
    CHECK_FALSE(found(places, 70.1));
    CHECK_FALSE(found(places, 120.0));
    CHECK_FALSE(found(places, 169.9));
    CHECK(the_place(places, 170.0).cut_us == after_s(200.0));
    CHECK(the_place(places, 270.0).cut_us == after_s(240.0));
    CHECK_FALSE(found(places, 270.1));
}

TEST_CASE("A quarter of an hour of work is remembered, breaks not counted") {
    PassedPlaces places;
    // Eight minutes, an hour's break, eight more.
    cut(places, 0, 480);
    cut(places, 4200, 4680);
    CHECK(found(places, 10.0));
    CHECK(found(places, 4300.0));
    CHECK_FALSE(found(places, 2000.0));
}

TEST_CASE("What lies further back than it can hold is forgotten") {
    PassedPlaces places;
    cut(places, 0, 7200);
    CHECK(the_place(places, 7200.0).cut_us == after_s(7200.0));
    CHECK(found(places, 7200.0 - 900.0));
    CHECK_FALSE(found(places, 7200.0 - 1200.0));
    CHECK(the_place(places, 6800.0).passed_kgpm2 == Real(6804));
}

TEST_CASE("After months without a break the places begin anew") {
    PassedPlaces places;
    cut(places, 0, 80);
    const double later_s = 60.0 * 86400.0;
    places.remember(place_at(after_s(later_s)));
    CHECK(the_place(places, later_s - 10.0).cut_us == after_s(later_s));
    CHECK_FALSE(found(places, 40.0));
}
