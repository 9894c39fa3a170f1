#include "map/map_window.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace podrate;
using namespace podrate::ui;

namespace {

const PlaneBox kWhole = {-100.0, 50.0, 1900.0, 1050.0};

MapWindow window_of(double width_px = 1000.0, double height_px = 600.0) {
    MapWindow window(kWhole);
    window.resize(width_px, height_px);
    return window;
}

bool same(const MapPart& a, const MapPart& b) {
    return a.m_per_px == b.m_per_px && a.centre.east_m == b.centre.east_m &&
           a.centre.north_m == b.centre.north_m;
}

}  // namespace

TEST_CASE("A place's pixel is the pixel's place, at any window") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> pixel(-500.0, 2500.0);
    MapWindow window = window_of();
    for (int i = 0; i < 5000; ++i) {
        window.zoom({pixel(random), pixel(random)}, std::exp2(pixel(random) / 1000.0 - 1.0));
        window.pan(pixel(random) - 1000.0, pixel(random) - 1000.0);
        const MapPixel asked = {pixel(random), pixel(random)};
        const MapPixel back = window.pixel_of(window.place_of(asked));
        REQUIRE(back.x == Approx(asked.x).margin(1e-6));
        REQUIRE(back.y == Approx(asked.y).margin(1e-6));
    }
}

TEST_CASE("North is up and east is right") {
    const MapWindow window = window_of();
    const sim::EastNorth middle = window.place_of({500.0, 300.0});
    CHECK(middle.east_m == Approx(900.0));
    CHECK(middle.north_m == Approx(550.0));
    CHECK(window.place_of({600.0, 300.0}).east_m > middle.east_m);
    CHECK(window.place_of({500.0, 200.0}).north_m > middle.north_m);
}

TEST_CASE("All is in view with a margin, whatever the shape of the panel, and stays so while it is resized") {
    MapWindow window(kWhole);
    for (const auto& [width, height] :
         {std::pair(1000.0, 600.0), std::pair(300.0, 900.0), std::pair(1900.0, 200.0), std::pair(1.0, 1.0)}) {
        window.resize(width, height);
        const PlaneBox box = window.box();
        CHECK(box.west_m < kWhole.west_m);
        CHECK(box.east_m > kWhole.east_m);
        CHECK(box.south_m < kWhole.south_m);
        CHECK(box.north_m > kWhole.north_m);
    }
    window.resize(1000.0, 600.0);
    CHECK(window.shown().m_per_px == Approx(1.06 * 2.0));
    window.zoom({500.0, 300.0}, 2.0);
    window.resize(500.0, 300.0);
    CHECK(window.shown().m_per_px == Approx(1.06));
}

TEST_CASE("The place under the pointer stays there while zooming") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    for (int i = 0; i < 2000; ++i) {
        MapWindow window = window_of();
        // Within what is mapped, so that no limit is met on the way in.
        const sim::EastNorth place = {kWhole.west_m + share(random) * kWhole.width_m(),
                                      kWhole.south_m + share(random) * kWhole.height_m()};
        const MapPixel about = window.pixel_of(place);
        const double factor = 1.0 + 9.0 * share(random);
        window.zoom(about, factor);
        REQUIRE(window.shown().m_per_px == Approx(1.06 * 2.0 / factor));
        REQUIRE(window.pixel_of(place).x == Approx(about.x).margin(1e-6));
        REQUIRE(window.pixel_of(place).y == Approx(about.y).margin(1e-6));
        window.zoom(about, 1.0 / factor);
        REQUIRE(window.shown().m_per_px == Approx(1.06 * 2.0));
        REQUIRE(window.shown().centre.east_m == Approx(900.0));
        REQUIRE(window.shown().centre.north_m == Approx(550.0));
    }
}

TEST_CASE("Whatever is done stays within the limits") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> pixel(-3000.0, 3000.0);
    MapWindow window = window_of();
    for (int i = 0; i < 20000; ++i) {
        switch (random() % 6) {
            case 0: window.zoom({pixel(random), pixel(random)}, std::exp2(pixel(random) / 400.0)); break;
            case 1: window.pan(pixel(random), pixel(random)); break;
            case 2: window.apply(static_cast<MapAction>(random() % 10)); break;
            case 3: window.resize(std::abs(pixel(random)), std::abs(pixel(random))); break;
            case 4: window.settle(); break;
            default: window.zoom({0.0, 0.0}, pixel(random)); break;
        }
        MapWindow all = window;
        all.show_all();
        REQUIRE(window.shown().m_per_px >= MapWindow::kLeastMPerPx);
        REQUIRE(window.shown().m_per_px <= MapWindow::kFarthestOfAll * all.shown().m_per_px * (1 + 1e-12));
        REQUIRE(window.shown().centre.east_m >= kWhole.west_m);
        REQUIRE(window.shown().centre.east_m <= kWhole.east_m);
        REQUIRE(window.shown().centre.north_m >= kWhole.south_m);
        REQUIRE(window.shown().centre.north_m <= kWhole.north_m);
    }
}

TEST_CASE("Turns of the wheel in a row are undone as one, a drag as another, and all is all again") {
    MapWindow window = window_of();
    for (int i = 0; i < 5; ++i) window.zoom({100.0, 100.0}, 1.25);
    const MapPart zoomed = window.shown();
    for (int i = 0; i < 5; ++i) window.pan(-7.0, 3.0);
    window.settle();
    const MapPart panned = window.shown();
    window.pan(-7.0, 3.0);
    CHECK(window.undo());
    CHECK(same(window.shown(), panned));
    CHECK(window.undo());
    CHECK(same(window.shown(), zoomed));
    CHECK(window.undo());
    CHECK_FALSE(window.undo());
    window.resize(500.0, 300.0);
    CHECK(window.shown().m_per_px == Approx(1.06 * 4.0));
}

TEST_CASE("What changes nothing leaves nothing to undo, and undo goes back 64 changes") {
    MapWindow window = window_of();
    window.show_all();
    window.zoom({0.0, 0.0}, 0.0);
    window.zoom({0.0, 0.0}, -2.0);
    window.apply(MapAction::other_topic);
    CHECK_FALSE(window.undo());
    window.zoom({500.0, 300.0}, 16.0);
    for (int i = 0; i < 100; ++i) {
        window.settle();
        window.pan(1.0, 0.0);
    }
    int steps = 0;
    while (window.undo()) ++steps;
    CHECK(steps == 64);
}

TEST_CASE("Keys move by an eighth of what is shown and zoom about the middle") {
    MapWindow window = window_of();
    window.zoom({500.0, 300.0}, 4.0);
    const MapPart before = window.shown();
    window.apply(MapAction::east);
    CHECK(window.shown().centre.east_m == Approx(before.centre.east_m + 125.0 * before.m_per_px));
    window.apply(MapAction::west);
    window.apply(MapAction::north);
    CHECK(window.shown().centre.east_m == Approx(before.centre.east_m));
    CHECK(window.shown().centre.north_m == Approx(before.centre.north_m + 75.0 * before.m_per_px));
    window.apply(MapAction::south);
    window.apply(MapAction::nearer);
    CHECK(window.shown().m_per_px == Approx(before.m_per_px / 1.5));
    CHECK(window.shown().centre.north_m == Approx(before.centre.north_m));
    window.apply(MapAction::farther);
    CHECK(window.shown().m_per_px == Approx(before.m_per_px));
    window.apply(MapAction::show_all);
    CHECK(window.shown().m_per_px == Approx(1.06 * 2.0));
    window.apply(MapAction::undo);
    CHECK(window.shown().m_per_px == Approx(before.m_per_px));
}
