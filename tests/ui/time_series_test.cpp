// Mouse and keys upon a stack of charts, as Dear ImGui 1.86 wants them: move, press, release.
#include "kit/time_series.hpp"

#include "ui/chart_desk.hpp"

using namespace podrate::ui;

namespace {

constexpr float kY = 700.0F;  // within the lowest chart

}  // namespace

TEST_CASE("The wheel zooms all charts about the pointer") {
    ChartDesk desk(usual_charts(), 1280, 800);
    desk.frame();
    const float x = std::floor(desk.plot().x + 0.3F * desk.plot().w);  // a pointer stands on whole pixels
    desk.move_to(x, kY);
    const double under = desk.time_at(x);
    const double span = desk.window().shown().span_ms();
    desk.wheel(3.0F);
    CHECK(desk.window().shown().span_ms() == Approx(span / std::pow(1.25, 3)));
    CHECK(desk.time_at(x) == Approx(under));
    desk.move_to(x, 60.0F);  // the uppermost chart
    desk.wheel(-1.0F);
    CHECK(desk.window().shown().span_ms() == Approx(span / std::pow(1.25, 2)));
    desk.move_to(10.0F, kY);  // the gutter does nothing
    desk.wheel(5.0F);
    CHECK(desk.window().shown().span_ms() == Approx(span / std::pow(1.25, 2)));
}

TEST_CASE("A drag moves what is shown along with the pointer") {
    ChartDesk desk(usual_charts(), 1280, 800);
    desk.window().show({3600e3, 7200e3});
    desk.frame();
    const float from = std::floor(desk.plot().x) + 600.0F;
    const double under = desk.time_at(from);
    desk.drag(from, from - 300.0F, kY);
    CHECK(desk.time_at(from - 300.0F) == Approx(under));
    CHECK(desk.window().shown().span_ms() == Approx(3600e3));
    desk.press({Key::backspace});  // the whole drag at once
    CHECK(desk.window().shown().from_ms == Approx(3600e3));
}

TEST_CASE("A drag with Shift shows what it swept and a double click shows all") {
    ChartDesk desk(usual_charts(), 1280, 800);
    desk.frame();
    const float from = std::floor(desk.plot().x) + 200.0F;
    const double begin = desk.time_at(from);
    const double end = desk.time_at(from + 100.0F);
    ImGui::GetIO().KeyShift = true;
    desk.drag(from + 100.0F, from, kY);
    ImGui::GetIO().KeyShift = false;
    CHECK(desk.window().shown().from_ms == Approx(begin));
    CHECK(desk.window().shown().to_ms == Approx(end));
    for (int click = 0; click < 2; ++click) {
        ImGui::GetIO().MouseDown[0] = true;
        desk.frame();
        ImGui::GetIO().MouseDown[0] = false;
        desk.frame();
    }
    CHECK(desk.window().shown() == desk.window().whole());
}

TEST_CASE("The pointer leads the cursor of all charts and leaves it to the keys while at rest") {
    ChartDesk desk(usual_charts(), 1280, 800);
    desk.frame();
    CHECK_FALSE(desk.window().cursor_ms().has_value());
    const float x = std::floor(desk.plot().x) + 500.0F;
    desk.move_to(x, kY);
    REQUIRE(desk.window().cursor_ms().has_value());
    CHECK(*desk.window().cursor_ms() == Approx(desk.time_at(x)));
    for (std::size_t chart = 0; chart < 5; ++chart) {
        REQUIRE(desk.of(chart).at_cursor[0].has_value());
        CHECK(desk.of(chart).at_cursor[0]->at_ms <= *desk.window().cursor_ms());
    }
    const double before = *desk.window().cursor_ms();
    desk.press({Key::right, true});
    CHECK(*desk.window().cursor_ms() == Approx(before + 0.01 * desk.window().shown().span_ms()));
}

TEST_CASE("Keys do what the mouse does") {
    ChartDesk desk(usual_charts(), 1280, 800);
    desk.frame();
    const double span = desk.window().whole().span_ms();
    desk.press({Key::up});
    CHECK(desk.window().shown().span_ms() == Approx(span / 1.5));
    desk.press({Key::home});
    CHECK(desk.window().shown().from_ms == 0.0);
    desk.press({Key::right});
    CHECK(desk.window().shown().from_ms == Approx(span / 1.5 / 8));
    desk.press({Key::left});
    CHECK(desk.window().shown().from_ms == Approx(0.0).margin(1e-6));
    desk.press({Key::end});
    CHECK(desk.window().shown().to_ms == Approx(desk.window().whole().to_ms));
    desk.press({Key::page_up});
    CHECK(desk.window().shown().from_ms == 0.0);
    desk.press({Key::a});
    CHECK(desk.window().shown() == desk.window().whole());
    desk.press({Key::backspace});
    CHECK(desk.window().shown().span_ms() == Approx(span / 1.5));
    desk.press({Key::down});
    CHECK(desk.window().shown() == desk.window().whole());
}

TEST_CASE("No word of a chart is cut and no letter is below its least size") {
    const auto [width, height] = GENERATE(std::pair(1280.0F, 800.0F), std::pair(1920.0F, 1080.0F),
                                          std::pair(1024.0F, 600.0F), std::pair(800.0F, 1200.0F));
    INFO(width << " x " << height);
    for (const double span_ms : {2e3, 60e3, 3600e3, 1e9}) {
        ChartDesk desk(usual_charts(), width, height);
        desk.window().show({7200e3, 7200e3 + span_ms});
        desk.frame();
        CHECK(desk.cut().empty());
        desk.move_to(width / 2, height / 2);
        CHECK(desk.cut().empty());
        for (const ImFont* font : ImGui::GetIO().Fonts->Fonts) CHECK(font->FontSize >= kLeastPx);
    }
}

TEST_CASE("A chart of no lines and one without any room are drawn without harm") {
    {
        const Chart bare = bare_chart(Measure::loss, {});
        ChartDesk desk({bare}, 1280, 800);
        desk.move_to(640, 400);
        CHECK(desk.window().cursor_ms().has_value());
    }
    ChartDesk tiny(usual_charts(), 60, 60);
    tiny.frame();
    CHECK_FALSE(tiny.window().cursor_ms().has_value());
}
