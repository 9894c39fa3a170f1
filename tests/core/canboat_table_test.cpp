// NMEA 2000 as another reader reads it: canboatjs, by tests/reference/canboat.mjs.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/frames.hpp"
#include "core/told_table.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::ToldLine;

namespace {

constexpr double kDegreesPerRad = 57.29577951308232;

// Ranges are ours: the other reader does not look at them.
bool on_globe(const ToldLine& line) {
    return line.has("lat") && line.has("lon") && std::abs(line.values.at("lat")) <= 90.0 &&
           std::abs(line.values.at("lon")) <= 180.0;
}

bool upright(const ToldLine& line) {
    return line.has("pitch") && line.has("roll") &&
           std::abs(line.values.at("pitch") * kDegreesPerRad) <= 60.0 &&
           std::abs(line.values.at("roll") * kDegreesPerRad) <= 60.0;
}

struct Out {
    bool any = false;
    Sample sample;
};

Out of_channel(const std::vector<Sample>& samples, Channel channel) {
    for (const Sample& sample : samples) {
        if (sample.channel == channel) return {true, sample};
    }
    return {};
}

}  // namespace

TEST_CASE("Frames are read as canboatjs reads them") {
    const std::vector<ToldLine> table = test::told_table("canboat.txt");
    REQUIRE(table.size() == 240);
    int places = 0;
    int tilts = 0;
    int speeds = 0;
    int headings = 0;
    int times = 0;
    for (const ToldLine& line : table) {
        INFO(line.given.front());
        BusDecoder decoder;
        for (const std::string& text : line.given) decoder.take(test::frame_of(text));
        const std::vector<Sample> samples = test::samples_of(decoder);

        const Out place = of_channel(samples, Channel::position);
        const bool measured =
            !line.has("method") || (line.values.at("method") >= 1.0 && line.values.at("method") <= 5.0);
        REQUIRE(place.any == (on_globe(line) && measured));
        if (place.any) {
            CHECK(place.sample.lat_e7 == std::llround(line.values.at("lat") * 1e7));
            CHECK(place.sample.lon_e7 == std::llround(line.values.at("lon") * 1e7));
            ++places;
        }
        const Out tilt = of_channel(samples, Channel::tilt);
        REQUIRE(tilt.any == upright(line));
        if (tilt.any) {
            CHECK(tilt.sample.value[0] == Approx(line.values.at("pitch") * kDegreesPerRad).epsilon(1e-6));
            CHECK(tilt.sample.value[1] == Approx(line.values.at("roll") * kDegreesPerRad).epsilon(1e-6));
            ++tilts;
        }
        const Out speed = of_channel(samples, Channel::speed);
        REQUIRE(speed.any == (line.has("sog") && line.values.at("sog") <= 30.0));
        if (speed.any) {
            CHECK(speed.sample.value[0] == static_cast<float>(line.values.at("sog")));
            ++speeds;
        }
        const Out heading = of_channel(samples, Channel::heading);
        const bool moving = !line.has("sog") || line.values.at("sog") >= 0.295;
        const bool turned =
            line.has("cog") && line.values.at("cog") <= 6.2832 && line.values.at("ref") == 0.0;
        REQUIRE(heading.any == (turned && moving));
        if (heading.any) {
            CHECK(heading.sample.value[0] == Approx(line.values.at("cog") * kDegreesPerRad).epsilon(1e-6));
            ++headings;
        }
        const bool dated = line.has("day") && line.has("time") && line.values.at("day") >= 7305.0 &&
                           line.values.at("time") <= 86401.0;  // from 1990 on
        REQUIRE(decoder.utc_offset().known == (dated && measured));
        if (decoder.utc_offset().known) {
            const TimeUs day_us = std::llround(line.values.at("day")) * kDayUs;
            CHECK(decoder.utc_offset().offset_us ==
                  day_us + std::llround(line.values.at("time") * 1e4) * 100);
            ++times;
        }
    }
    CHECK(places > 20);
    CHECK(tilts > 10);
    CHECK(speeds > 10);
    CHECK(headings > 10);
    CHECK(times > 40);
}
