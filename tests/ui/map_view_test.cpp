// Mouse upon the map, as Dear ImGui 1.86 wants it, and room for its words.
#include "map/map_view.hpp"

#include "settings/settings.hpp"
#include "ui/map_desk.hpp"
#include "ui/small_map.hpp"

using namespace podrate;
using namespace podrate::ui;

TEST_CASE("The wheel zooms the map about the pointer") {
    const MapModel model = small_map();
    MapDesk desk(model, 1280, 800);
    desk.frame();
    const MapPixel about = {300.0, 200.0};
    desk.move_to(about);
    const sim::EastNorth under = desk.state().window.place_of(about);
    const double before = desk.state().window.shown().m_per_px;
    desk.wheel(3.0F);
    CHECK(desk.state().window.shown().m_per_px == Approx(before / std::pow(1.25, 3)));
    // The pointer's pixel is a whole one; the plot's corner need not be.
    CHECK(desk.state().window.pixel_of(under).x == Approx(about.x).margin(0.5));
    CHECK(desk.state().window.pixel_of(under).y == Approx(about.y).margin(0.5));
    desk.wheel(-3.0F);
    CHECK(desk.state().window.shown().m_per_px == Approx(before));
    desk.move_to({300.0, -60.0});  // the head does nothing
    desk.wheel(3.0F);
    CHECK(desk.state().window.shown().m_per_px == Approx(before));
}

TEST_CASE("A drag moves the map along with the pointer and tells no time") {
    const MapModel model = small_map();
    MapDesk desk(model, 1280, 800);
    desk.frame();
    desk.state().window.zoom({400.0, 200.0}, 4.0);
    const sim::EastNorth under = desk.state().window.place_of({400.0, 200.0});
    const MapPart before = desk.state().window.shown();
    desk.drag({400.0, 200.0}, {480.0, 160.0});
    CHECK(desk.state().window.pixel_of(under).x == Approx(480.0).margin(1.0));
    CHECK(desk.state().window.pixel_of(under).y == Approx(160.0).margin(1.0));
    CHECK_FALSE(desk.take_clicked());
    CHECK(desk.state().window.undo());  // the whole drag at once
    CHECK(desk.state().window.shown().centre.east_m == Approx(before.centre.east_m));
}

TEST_CASE("A click tells when the chosen machine was nearest to that place") {
    const MapModel model = small_map();
    MapDesk desk(model, 1280, 800);
    desk.frame();
    for (const std::size_t machine : {std::size_t(0), std::size_t(2)}) {
        desk.moment.machine = machine;
        // 100 s into its fifth bout, which runs north.
        const auto place = model.place_at(machine, kSmallStartUs + 900 * kSecondUs);
        REQUIRE(place);
        const MapPixel at = desk.state().window.pixel_of(*place);
        desk.click({std::round(at.x), std::round(at.y)});
        const auto told = desk.take_clicked();
        REQUIRE(told);
        // A pixel is 0.7 m here, a second 1.5 m, the next bout 3.3 m off.
        CHECK(static_cast<double>(*told - kSmallStartUs) / 1e6 == Approx(900.0).margin(2.0));
        CHECK_FALSE(desk.take_clicked());
    }
}

TEST_CASE("A button pressed elsewhere and released upon the map is no click") {
    const MapModel model = small_map();
    MapDesk desk(model, 1280, 800);
    desk.frame();
    desk.move_to({300.0, -60.0});
    ImGui::GetIO().MouseDown[0] = true;
    desk.frame();
    desk.move_to({300.0, 200.0});
    ImGui::GetIO().MouseDown[0] = false;
    desk.frame();
    desk.frame();
    CHECK_FALSE(desk.take_clicked());
}

TEST_CASE("The topic changes by its action and the window by the others") {
    const MapModel model = small_map();
    MapState state(model);
    state.window.resize(800.0, 400.0);
    const double all = state.window.shown().m_per_px;
    state.apply(MapAction::other_topic);
    CHECK(state.topic == MapTopic::loss);
    CHECK(state.window.shown().m_per_px == all);
    state.apply(MapAction::other_topic);
    CHECK(state.topic == MapTopic::yield);
    state.apply(MapAction::nearer);
    CHECK(state.window.shown().m_per_px == Approx(all / 1.5));
}

TEST_CASE("No word of the map is cut, whatever lies under the pointer") {
    const MapModel model = small_map();
    const auto [width, height] =
        GENERATE(std::pair(800.0F, 480.0F), std::pair(400.0F, 440.0F), std::pair(1024.0F, 600.0F),
                 std::pair(1280.0F, 800.0F), std::pair(1920.0F, 1080.0F), std::pair(600.0F, 1024.0F));
    for (const float scale : {1.0F, static_cast<float>(kLeastScale)}) {
        for (const Language language : {Language::english, Language::german}) {
            for (const Units units : {Units::metric, Units::us}) {
                INFO(width << " x " << height << ", scale " << scale << ", language "
                           << static_cast<int>(language) << ", units " << static_cast<int>(units));
                MapDesk desk(model, width, height, kDayPalette, {language, units}, scale);
                desk.moment = {kSmallStartUs + 1800 * kSecondUs, 1};
                desk.frame();
                for (const bool loss : {false, true}) {
                    if (loss) desk.state().apply(MapAction::other_topic);
                    CHECK(desk.cut().empty());
                    const MapPixel pin = desk.state().window.pixel_of(model.pins[1].place);
                    desk.move_to(pin);
                    CHECK(desk.cut().empty());
                    desk.move_to({pin.x, pin.y + 30.0});
                    CHECK(desk.cut().empty());
                }
                CHECK(static_cast<double>(desk.plot().h) > 0.4 * static_cast<double>(height));
            }
        }
    }
}

TEST_CASE("A panel without room is drawn without harm") {
    const MapModel model = small_map();
    MapDesk desk(model, 30, 20);
    desk.frame();
    CHECK_FALSE(desk.take_clicked());
}
