// Pictures of the map, drawn without a display.
#include <set>

#include "report/html/cividis.hpp"
#include "ui/map_desk.hpp"
#include "ui/small_map.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

Rgb at(const Image& image, const MapDesk& desk, MapPixel pixel) {
    const auto x = static_cast<std::size_t>(static_cast<double>(desk.plot().x) + pixel.x);
    const auto y = static_cast<std::size_t>(static_cast<double>(desk.plot().y) + pixel.y);
    const std::size_t place = 4 * (y * static_cast<std::size_t>(image.width) + x);
    return {image.rgba[place], image.rgba[place + 1], image.rgba[place + 2]};
}

bool alike(Rgb a, const sim::Rgb& b, int by) {
    return std::abs(a.r - b[0]) <= by && std::abs(a.g - b[1]) <= by && std::abs(a.b - b[2]) <= by;
}

// Pixels of a cell that are not of its own colour.
int others_in(const Image& image, MapDesk& desk, const MapModel& model, std::int32_t column,
              std::int32_t row) {
    const ShownCell& cell = *model.cell_at({10.0 * column + 5.0, 10.0 * row + 5.0});
    const sim::MapScale& scale = model.scale(desk.state().topic, Units::metric);
    const double per_si = unit_of(quantity_of(desk.state().topic), Units::metric).per_si;
    const double value = per_si * static_cast<double>(cell.of(desk.state().topic).kgpm2);
    const sim::Rgb colour = sim::cividis((value - scale.low) / (scale.high - scale.low));
    const MapPixel low = desk.state().window.pixel_of(model.south_west(cell));
    const double side = model.cell_m / desk.state().window.shown().m_per_px;
    int others = 0;
    for (double x = low.x + 2.0; x < low.x + side - 2.0; x += 1.0) {
        for (double y = low.y - side + 2.0; y < low.y - 2.0; y += 1.0)
            others += alike(at(image, desk, {x, y}), colour, 2) ? 0 : 1;
    }
    return others;
}

std::size_t count(const Image& image, Rgb colour) {
    std::size_t found = 0;
    for (std::size_t i = 0; i < image.rgba.size(); i += 4)
        found += image.rgba[i] == colour.r && image.rgba[i + 1] == colour.g && image.rgba[i + 2] == colour.b;
    return found;
}

}  // namespace

TEST_CASE("The same map gives the same pixels, and others by night, of the loss and at another moment") {
    const MapModel model = small_map();
    const auto picture = [&](const Palette& palette, MapTopic topic, int second) {
        MapDesk desk(model, 640, 480, palette);
        desk.state().topic = topic;
        desk.moment = {kSmallStartUs + second * kSecondUs, 0};
        return desk.picture().rgba;
    };
    const auto day = picture(kDayPalette, MapTopic::yield, 1000);
    CHECK(day == picture(kDayPalette, MapTopic::yield, 1000));
    CHECK(day != picture(kNightPalette, MapTopic::yield, 1000));
    CHECK(day != picture(kDayPalette, MapTopic::loss, 1000));
    CHECK(day != picture(kDayPalette, MapTopic::yield, 1010));
}

TEST_CASE("A cell has the colour of its yield on the report's scale, and lines where that is not sure") {
    const MapModel model = small_map();
    MapDesk desk(model, 1280, 800);
    desk.moment.at_us = kSmallStartUs - 3600 * kSecondUs;  // no machine, no way
    desk.frame();
    desk.state().window.zoom(desk.state().window.pixel_of({120.0, 250.0}), 3.0);
    const Image image = desk.picture();
    const int sure = others_in(image, desk, model, 12, 25);
    const int unsure = others_in(image, desk, model, 20, 26);
    const int very_unsure = others_in(image, desk, model, 33, 26);
    CHECK(sure == 0);
    CHECK(unsure > 20);
    CHECK(very_unsure > unsure * 3 / 2);
    const double side = model.cell_m / desk.state().window.shown().m_per_px;
    CHECK(very_unsure < 0.7 * side * side);  // the colour still shows
}

TEST_CASE("Each machine stands where it is, in its colour, and none where no place is known") {
    const MapModel model = small_map();
    for (const Palette* palette : {&kDayPalette, &kNightPalette}) {
        MapDesk desk(model, 1280, 800, *palette);
        desk.moment.at_us = kSmallStartUs + 1850 * kSecondUs;
        const Image image = desk.picture();
        for (std::size_t machine = 0; machine < 3; ++machine) {
            const MapPixel pixel = desk.state().window.pixel_of(*model.place_at(machine, desk.moment.at_us));
            const Rgb colour = palette->series[machine];
            CHECK(alike(at(image, desk, pixel), {colour.r, colour.g, colour.b}, 0));
        }
        const std::size_t with = count(image, palette->series[0]);
        desk.moment.at_us = kSmallStartUs - kSecondUs;
        CHECK(count(desk.picture(), palette->series[0]) + 100 < with);
    }
}

TEST_CASE("More cells than 16-bit indices reach are all painted") {
    MapModel model = small_map();
    model.cells.clear();
    model.pins.clear();
    model.fields.clear();
    for (std::int32_t row = 0; row < 150; ++row) {
        for (std::int32_t column = 0; column < 200; ++column) {
            ShownCell& cell = model.cells.emplace_back();
            cell.place = {model.origin_cell.column + column, model.origin_cell.row + row};
            cell.values[0].kgpm2 = 0.5F;
        }
    }
    model.whole = {0.0, 0.0, 2000.0, 1500.0};
    MapDesk desk(model, 640, 480);
    desk.moment.at_us = kSmallStartUs - 3600 * kSecondUs;
    const Image image = desk.picture();
    REQUIRE(ImGui::GetDrawData()->TotalVtxCount > 120000);
    const sim::MapScale& scale = model.scale(MapTopic::yield, Units::metric);
    const sim::Rgb colour = sim::cividis((5.0 - scale.low) / (scale.high - scale.low));
    for (const double north_m : {5.0, 400.0, 800.0, 1495.0}) {
        for (const double east_m : {5.0, 700.0, 1500.0}) {
            // The scale bar lies upon the lower left.
            if (north_m < 300.0 && east_m < 1000.0) continue;
            INFO(east_m << ", " << north_m);
            CHECK(alike(at(image, desk, desk.state().window.pixel_of({east_m, north_m})), colour, 2));
        }
    }
}
