// Pictures of the charts, drawn without a display.
#include <set>

#include "ui/chart_desk.hpp"

using namespace podrate::ui;

namespace {

struct Pixel {
    int r, g, b;
};

Pixel at(const Image& image, float x, float y) {
    const auto place = 4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) +
                            static_cast<std::size_t>(x));
    return {image.rgba[place], image.rgba[place + 1], image.rgba[place + 2]};
}

bool is(const Pixel& pixel, Rgb colour) {
    return pixel.r == colour.r && pixel.g == colour.g && pixel.b == colour.b;
}

std::size_t count(const Image& image, Rgb colour) {
    std::size_t found = 0;
    for (int y = 0; y < image.height; ++y) {
        for (int x = 0; x < image.width; ++x)
            found += is(at(image, static_cast<float>(x), static_cast<float>(y)), colour) ? 1 : 0;
    }
    return found;
}

Image picture_of_hour(const Palette& palette, double from_h = 2.0) {
    ChartDesk desk(usual_charts(), 800, 600, palette);
    desk.window().show({from_h * 3600e3, (from_h + 1.0) * 3600e3});
    return desk.picture();
}

// A saw of 0 and 10 at 10 Hz with a hole in its middle and one lone sample in the hole.
struct Saw {
    MachineSeries machine;
    Chart chart;

    explicit Saw(bool with_sd) {
        Column column(Measure::drum_speed);
        for (int i = 0; i < 20000; ++i) {
            const bool lone = i == 10000;
            if (i > 8000 && i < 12000 && !lone) continue;
            machine.kept_ms.push_back(100 * i);
            column.add(machine.kept_ms, true, 100 * i, lone ? 5.0F : i % 2 == 0 ? 0.0F : 10.0F);
            if (with_sd) column.sd.push_back(1.0F);
        }
        column.seal(machine.kept_ms);
        machine.columns.push_back(column);
        chart = bare_chart(Measure::drum_speed, {});
        chart.lines = {{&machine, &machine.columns[0], "viner_1"}};
    }
};

}  // namespace

TEST_CASE("The same charts give the same pixels and others by night and at another hour") {
    const Image day = picture_of_hour(kDayPalette);
    CHECK(day.rgba == picture_of_hour(kDayPalette).rgba);
    CHECK(day.rgba != picture_of_hour(kNightPalette).rgba);
    CHECK(day.rgba != picture_of_hour(kDayPalette, 2.5).rgba);
    CHECK(count(day, kDayPalette.series[0]) > 500);
    CHECK(count(day, kNightPalette.series[0]) == 0);
    CHECK(count(picture_of_hour(kNightPalette), kNightPalette.series[0]) > 500);
}

TEST_CASE("Dense samples fill their whole extent and a gap stays blank but for its lone sample") {
    const Saw saw(false);
    ChartDesk desk({saw.chart}, 800, 400);
    desk.window().show({200e3, 1800e3});
    const Image image = desk.picture();
    const Box plot = desk.plot();
    const ValueAxis axis = desk.of(0).axis;
    const auto x_of = [&](double at_ms) {
        return plot.x + plot.w * static_cast<float>((at_ms - 200e3) / 1600e3);
    };
    const auto y_of = [&](double value) {
        return plot.bottom() - plot.h * static_cast<float>((value - axis.low) / (axis.high - axis.low));
    };
    for (const double at_ms : {300e3, 600e3, 1400e3, 1700e3}) {
        for (const double value : {0.5, 5.0, 9.5}) {
            INFO(at_ms << " ms, " << value);
            CHECK(is(at(image, x_of(at_ms), y_of(value)), kDayPalette.series[0]));
        }
        CHECK_FALSE(is(at(image, x_of(at_ms), y_of(10.0) - 6.0F), kDayPalette.series[0]));
    }
    for (const double at_ms : {850e3, 950e3, 1050e3, 1150e3}) {
        for (float y = plot.y; y < plot.bottom(); y += 1.0F)
            CHECK_FALSE(is(at(image, x_of(at_ms), y), kDayPalette.series[0]));
    }
    CHECK(is(at(image, x_of(1000e3), y_of(5.0)), kDayPalette.series[0]));
}

TEST_CASE("A band is shaded from its least to its greatest") {
    const Saw saw(true);
    ChartDesk desk({saw.chart}, 800, 400);
    desk.window().show({200e3, 700e3});
    const Image image = desk.picture();
    const Box plot = desk.plot();
    const ValueAxis axis = desk.of(0).axis;
    const auto y_of = [&](double value) {
        return plot.bottom() - plot.h * static_cast<float>((value - axis.low) / (axis.high - axis.low));
    };
    // 1.645 above the line's 10.
    const float x = plot.x + 0.5F * plot.w + 7.0F;
    const Pixel within = at(image, x, y_of(11.0));
    CHECK_FALSE(is(within, kDayPalette.panel));
    CHECK_FALSE(is(within, kDayPalette.series[0]));
    CHECK(is(at(image, x, y_of(11.645) - 2.0F), kDayPalette.panel));
}
