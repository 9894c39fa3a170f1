// NMEA 0183 as other readers read it: pynmea2 and gpsd, by tests/reference/nmea0183.py.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/told_table.hpp"
#include "podrate/bus/nmea_sentence.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::ToldLine;

namespace {

// What the newest sentences told, whichever they were.
struct Newest {
    NmeaDecoder decoder;
    Sample place;
    Sample speed;
    Sample heading;
    int samples = 0;

    void take(const std::string& sentence, TimeUs time_us) {
        for (const char c : sentence + "\r\n") {
            decoder.take(time_us, static_cast<std::uint8_t>(c));
            for (int i = 0; i < decoder.sample_count(); ++i) keep(decoder.sample(i));
        }
    }
    void keep(const Sample& sample) {
        ++samples;
        if (sample.channel == Channel::position) place = sample;
        if (sample.channel == Channel::speed) speed = sample;
        if (sample.channel == Channel::heading) heading = sample;
    }
};

// Both print 9 decimals of a degree, rounded from their own double.
void check_values(const Newest& newest, const ToldLine& line, double within_mps) {
    const bool moving = line.has("mps") && line.values.at("mps") >= 0.3;
    for (const auto& [name, value] : line.values) {
        INFO(name);
        if (name == "lat") CHECK(std::abs(newest.place.lat_e7 - value * 1e7) < 0.52);
        if (name == "lon") CHECK(std::abs(newest.place.lon_e7 - value * 1e7) < 0.52);
        if (name == "mps") CHECK(std::abs(static_cast<double>(newest.speed.value[0]) - value) < within_mps);
        if (name == "course" && moving) CHECK(newest.heading.value[0] == static_cast<float>(value));
    }
}

}  // namespace

TEST_CASE("Sentences are read as pynmea2 reads them") {
    int sentences = 0;
    for (const ToldLine& line : test::told_table("nmea0183.txt")) {
        if (line.given.empty() || line.given.front() == "=") continue;
        INFO(line.given.front());
        Newest newest;
        newest.take(line.given.front(), 0);
        const bool place = line.has("lat");
        const bool moving = line.has("mps") && line.values.at("mps") >= 0.3;
        CHECK(newest.samples == (place ? 1 : 0) + (line.has("mps") ? 1 : 0) + (moving ? 1 : 0));
        check_values(newest, line, 1e-6);
        REQUIRE(newest.decoder.utc_offset().known == line.has("utc"));
        if (line.has("utc"))
            CHECK(newest.decoder.utc_offset().offset_us == std::llround(line.values.at("utc")) * kSecondUs);
        ++sentences;
    }
    CHECK(sentences == 124);
}

TEST_CASE("Seconds are read as gpsd reads them") {
    Newest newest;
    TimeUs now_us = 0;
    int seconds_told = 0;
    for (const ToldLine& line : test::told_table("nmea0183.txt")) {
        if (line.given.front() != "=") {
            // Talkers change, other than a receiver's would: each second is heard by itself.
            if (line.given.front().find("RMC") != std::string::npos) newest = Newest();
            newest.take(line.given.front(), now_us += 1000);
            continue;
        }
        // The second's last place is GGA's, which waits behind RMC's: both are the same here.
        check_values(newest, line, 6e-4);
        const TimeUs rmc_us = now_us - 2000;
        CHECK(newest.decoder.utc_offset().offset_us + rmc_us ==
              std::llround(line.values.at("utc")) * kSecondUs);
        ++seconds_told;
    }
    CHECK(seconds_told >= 38);
}
