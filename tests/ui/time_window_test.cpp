#include "series/time_window.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace podrate::ui;

namespace {

constexpr double kHourMs = 3600e3;

TimeWindow day() {
    return TimeWindow({0.0, 10 * kHourMs});
}

}  // namespace

TEST_CASE("What is under the pointer stays where it is while zooming") {
    TimeWindow window = day();
    window.zoom(2.5 * kHourMs, 4.0);
    CHECK(window.shown().span_ms() == Approx(2.5 * kHourMs));
    CHECK((2.5 * kHourMs - window.shown().from_ms) / window.shown().span_ms() == Approx(0.25));
    window.zoom(2.5 * kHourMs, 0.5);
    CHECK(window.shown().span_ms() == Approx(5.0 * kHourMs));
    CHECK((2.5 * kHourMs - window.shown().from_ms) / window.shown().span_ms() == Approx(0.25));
}

TEST_CASE("Nothing leads out of the day or below a second") {
    std::mt19937 random(11);
    TimeWindow window = day();
    std::uniform_real_distribution<double> place(-5 * kHourMs, 15 * kHourMs);
    for (int i = 0; i < 20000; ++i) {
        const auto what = random() % 6;
        if (what == 0)
            window.zoom(place(random), std::exp2(std::uniform_real_distribution<double>(-8, 8)(random)));
        if (what == 1) window.pan(place(random));
        if (what == 2) window.show({place(random), place(random)});
        if (what == 3) window.apply(static_cast<ChartAction>(random() % 13));
        if (what == 4) window.set_cursor(place(random));
        if (what == 5) window.settle();
        const TimeRange& shown = window.shown();
        REQUIRE(shown.from_ms >= 0.0);
        REQUIRE(shown.to_ms <= 10 * kHourMs + 1e-3);
        REQUIRE(shown.span_ms() >= TimeWindow::kLeastSpanMs - 1e-3);
        if (window.cursor_ms()) {
            REQUIRE(*window.cursor_ms() >= 0.0);
            REQUIRE(*window.cursor_ms() <= 10 * kHourMs);
        }
    }
}

TEST_CASE("Turns of the wheel in a row are undone as one and a drag as another") {
    TimeWindow window = day();
    for (int i = 0; i < 5; ++i) window.zoom(5 * kHourMs, 1.25);
    const TimeRange zoomed = window.shown();
    for (int i = 0; i < 5; ++i) window.pan(60e3);
    window.settle();
    window.pan(60e3);
    CHECK(window.undo());
    CHECK(window.shown().from_ms == Approx(zoomed.from_ms + 300e3));
    CHECK(window.undo());
    CHECK(window.shown() == zoomed);
    CHECK(window.undo());
    CHECK(window.shown() == window.whole());
    CHECK_FALSE(window.undo());
}

TEST_CASE("What changes nothing leaves nothing to undo") {
    TimeWindow window = day();
    window.pan(kHourMs);
    window.zoom(kHourMs, 0.5);
    window.show_all();
    window.apply(ChartAction::to_end);
    CHECK_FALSE(window.undo());
}

TEST_CASE("Undo goes back 64 changes") {
    TimeWindow window = day();
    window.show({0.0, kHourMs});
    for (int i = 1; i <= 100; ++i) window.show({i * 60e3, i * 60e3 + kHourMs});
    int steps = 0;
    while (window.undo()) ++steps;
    CHECK(steps == 64);
    CHECK(window.shown().from_ms == 36 * 60e3);
}

TEST_CASE("Keys zoom about the cursor while it is in view") {
    TimeWindow window = day();
    window.set_cursor(2 * kHourMs);
    window.apply(ChartAction::nearer);
    CHECK((2 * kHourMs - window.shown().from_ms) / window.shown().span_ms() == Approx(0.2));
    window.show({5 * kHourMs, 7 * kHourMs});
    window.apply(ChartAction::nearer);
    CHECK(window.shown().middle_ms() == Approx(6 * kHourMs));
}

TEST_CASE("Keys move by shares of what is shown and a cursor led out of view takes it along") {
    TimeWindow window = day();
    window.show({4 * kHourMs, 5 * kHourMs});
    window.apply(ChartAction::later);
    CHECK(window.shown().from_ms == Approx(4.125 * kHourMs));
    window.apply(ChartAction::page_earlier);
    CHECK(window.shown().from_ms == Approx(3.125 * kHourMs));
    window.apply(ChartAction::to_start);
    CHECK(window.shown().from_ms == 0.0);
    window.apply(ChartAction::to_end);
    CHECK(window.shown().to_ms == Approx(10 * kHourMs));
    CHECK(window.shown().span_ms() == Approx(kHourMs));
    window.apply(ChartAction::to_start);
    window.set_cursor(0.995 * kHourMs);
    window.apply(ChartAction::cursor_on);
    CHECK(*window.cursor_ms() == Approx(1.005 * kHourMs));
    CHECK(window.shown().to_ms == Approx(1.005 * kHourMs));
}

TEST_CASE("A day of a moment can be shown") {
    const TimeWindow window({5.0, 5.0});
    CHECK(window.shown().span_ms() == TimeWindow::kLeastSpanMs);
}
