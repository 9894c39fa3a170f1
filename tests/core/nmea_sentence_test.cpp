// What the sentences of NMEA 0183 tell.
#include "podrate/bus/nmea_sentence.hpp"

#include <catch2/catch.hpp>
#include <cstdio>

#include "core/normals.hpp"

using namespace podrate;
using namespace podrate::bus;

namespace {

struct Told {
    FrameResult result{};
    std::vector<Sample> samples;
};

Told feed(NmeaDecoder& decoder, const std::string& line, TimeUs time_us) {
    Told told;
    for (const char c : line) {
        const FrameResult result = decoder.take(time_us, static_cast<std::uint8_t>(c));
        if (result == FrameResult::incomplete) continue;
        told.result = result;
        for (int i = 0; i < decoder.sample_count(); ++i) told.samples.push_back(decoder.sample(i));
    }
    return told;
}

// $ and checksum added.
Told told(NmeaDecoder& decoder, const std::string& text, TimeUs time_us = 0) {
    unsigned sum = 0;
    for (const char c : text) sum ^= static_cast<unsigned char>(c);
    char end[8];
    std::snprintf(end, sizeof end, "*%02X\r\n", sum);
    return feed(decoder, "$" + text + end, time_us);
}

Told told(const std::string& text) {
    NmeaDecoder decoder;
    return told(decoder, text);
}

}  // namespace

// Widely published examples; pynmea2 1.15.0 reads them so.

TEST_CASE("GGA is a place") {
    NmeaDecoder decoder;
    const Told north =
        feed(decoder, "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\r\n", 99);
    REQUIRE(north.samples.size() == 1);
    CHECK(north.samples[0].channel == Channel::position);
    CHECK(north.samples[0].time_us == 99);
    CHECK(north.samples[0].lat_e7 == 481173000);
    CHECK(north.samples[0].lon_e7 == 115166667);
    const Told south =
        feed(decoder, "$GPGGA,184353.07,1929.045,S,02410.506,E,1,04,2.6,100.00,M,-33.9,M,,0000*6D\r\n", 100);
    REQUIRE(south.samples.size() == 1);
    CHECK(south.samples[0].lat_e7 == -194840833);
    CHECK(south.samples[0].lon_e7 == 241751000);
    CHECK_FALSE(decoder.utc_offset().known);
}

TEST_CASE("RMC is place and speed and course and the time of day") {
    NmeaDecoder decoder;
    const Told all =
        feed(decoder, "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n", 1000);
    REQUIRE(all.samples.size() == 3);
    CHECK(all.samples[0].lat_e7 == 481173000);
    CHECK(all.samples[0].lon_e7 == 115166667);
    CHECK(all.samples[1].channel == Channel::speed);
    CHECK(all.samples[1].value[0] == Approx(22.4 * 1852.0 / 3600.0).epsilon(1e-7));
    CHECK(all.samples[2].channel == Channel::heading);
    CHECK(all.samples[2].value[0] == 84.4F);
    // date -u -d "1994-03-23 12:35:19" +%s
    CHECK(decoder.utc_offset().offset_us + 1000 == 764426119000000);
}

TEST_CASE("VTG is speed and course") {
    const Told all = told("GPVTG,054.7,T,034.4,M,005.5,N,010.2,K");
    REQUIRE(all.samples.size() == 2);
    CHECK(all.samples[0].channel == Channel::speed);
    CHECK(all.samples[0].value[0] == Approx(10.2 / 3.6).epsilon(1e-7));
    CHECK(all.samples[1].channel == Channel::heading);
    CHECK(all.samples[1].value[0] == 54.7F);
    CHECK(told("GPVTG,054.7,T,,M,005.5,N,,").samples.at(0).value[0] == Approx(5.5 * 0.5144444).epsilon(1e-6));
    CHECK(told("GPVTG,,T,,M,0.10,N,0.2,K,A").samples.size() == 1);
    CHECK(told("GPVTG,54.7,T,,M,0.10,N,0.2,K,A").samples.size() == 1);  // it stands
    CHECK(told("GPVTG,054.7,T,034.4,M,005.5,N,010.2,K,N").result == FrameResult::not_available);
    CHECK(told("GPVTG,,,,,,,,,N").result == FrameResult::not_available);
    CHECK(told("GPVTG").result == FrameResult::not_available);
}

TEST_CASE("Any talker is heard but no maker's own sentences") {
    for (const char* const talker : {"GP", "GN", "GL", "GA", "GB", "BD", "II"}) {
        INFO(talker);
        CHECK(told(talker + std::string("VTG,054.7,T,034.4,M,005.5,N,010.2,K")).samples.size() == 2);
    }
    CHECK(told("PGRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W").result ==
          FrameResult::not_ours);
    CHECK(told("GPGSV,1,1,00").result == FrameResult::not_ours);
    CHECK(told("GPGG,1").result == FrameResult::not_ours);
    CHECK(told("").result == FrameResult::not_ours);
}

TEST_CASE("Only what was measured counts") {
    for (const char quality : std::string("0123456789")) {
        const Told place =
            told(std::string("GPGGA,123519,4807.038,N,01131.000,E,") + quality + ",08,0.9,,,,,,");
        INFO(quality);
        CHECK(place.samples.size() == (quality >= '1' && quality <= '5' ? 1 : 0));
    }
    CHECK(told("GPGGA,123519,4807.038,N,01131.000,E,,08,0.9,,,,,,").result == FrameResult::not_available);
    CHECK(told("GPGGA,123519,,,,,1,08,0.9,,,,,,").result == FrameResult::not_available);
    CHECK(told("GPRMC,123519,V,4807.038,N,01131.000,E,022.4,084.4,230394,,").result ==
          FrameResult::not_available);
    for (const char mode : std::string("ADPRFNEMS")) {
        const Told all =
            told(std::string("GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,010724,,,") + mode);
        INFO(mode);
        CHECK(all.samples.size() == (std::string("NEMS").find(mode) == std::string::npos ? 3 : 0));
    }
}

TEST_CASE("Empty fields leave the others") {
    NmeaDecoder decoder;
    CHECK(told(decoder, "GNRMC,,A,4807.038,N,01131.000,E,,,,,").samples.size() == 1);
    CHECK_FALSE(decoder.utc_offset().known);
    CHECK(told("GNRMC,123519,A,,,,,2.0,,010724,,").samples.size() == 1);
    CHECK(told("GNRMC,123519,A,,,,,,,010724,,").result == FrameResult::taken);  // the time
    CHECK(told("GNRMC,,A,,,,,,,,,").result == FrameResult::not_available);
    CHECK(told("GNRMC,123519,A,4807.038,N,01131.000,E,0.3,084.4,010724,,").samples.size() == 2);  // it stands
}

TEST_CASE("What is no such number is refused") {
    const auto result = [](const std::string& lat, const std::string& lon) {
        return told("GPGGA,123519," + lat + "," + lon + ",1,08,0.9,,,,,,").result;
    };
    CHECK(result("4807.038,N", "01131.000,E") == FrameResult::taken);
    CHECK(result("0000.000,N", "00000.000,W") == FrameResult::not_available);
    CHECK(result("0000.001,N", "00000.000,W") == FrameResult::taken);
    CHECK(result("4860.000,N", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("9000.000,S", "18000.000,W") == FrameResult::taken);
    CHECK(result("9000.001,N", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("4807.038,N", "18000.001,E") == FrameResult::out_of_range);
    CHECK(result("4807.038,E", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("4807.038,", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("4807.0.8,N", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("-4807.038,N", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("4e3,N", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result(".,N", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("99999999999999999999,N", "01131.000,E") == FrameResult::out_of_range);
    CHECK(result("4807.03800000000000000000001,N", "01131.000,E") == FrameResult::taken);
    CHECK(told("GPRMC,102030,A,4807.038,N,01131.000,E,2.0.0,084.4,010724,,").samples.size() == 1);
    CHECK(told("GPVTG,54.7,T,,M,,N,1O.2,K").result == FrameResult::out_of_range);
    CHECK(told("GPVTG,360.1,T,,M,,N,10.0,K").samples.size() == 1);
    CHECK(told("GPVTG,360.0,T,,M,,N,10.0,K").samples.size() == 2);
    CHECK(told("GPVTG,,T,,M,,N,108.1,K").result == FrameResult::out_of_range);
}

TEST_CASE("Times of day at their ends") {
    const auto utc_us = [](const std::string& time, const std::string& date) {
        NmeaDecoder decoder;
        told(decoder, "GPRMC," + time + ",A,,,,,,," + date + ",,");
        return decoder.utc_offset().known ? decoder.utc_offset().offset_us : -1;
    };
    CHECK(utc_us("000000", "010100") == 946684800000000);
    CHECK(utc_us("102030.50", "010724") == 1719829230500000);
    CHECK(utc_us("235959.999999", "311299") == 946684799999999);
    CHECK(utc_us("235960", "311216") == 1483228800000000);  // a leap second is the first of the next day
    CHECK(utc_us("235961", "311216") == -1);
    CHECK(utc_us("240000", "311216") == -1);
    CHECK(utc_us("236000", "311216") == -1);
    CHECK(utc_us("120000", "300223") == -1);
    CHECK(utc_us("120000", "060180") == -1);  // a receiver that does not know
    CHECK(utc_us("120000", "01072024") == -1);
    CHECK(utc_us("120000", "01.724") == -1);
    CHECK(utc_us("", "010724") == -1);
}

TEST_CASE("GGA and RMC of one receiver give one place") {
    NmeaDecoder decoder;
    int places = 0;
    int speeds = 0;
    for (int s = 0; s < 60; ++s) {
        const TimeUs at_us = s * kSecondUs;
        std::vector<Sample> all;
        for (const char* const text : {"GNRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,010724,,",
                                       "GNVTG,054.7,T,034.4,M,022.4,N,041.5,K",
                                       "GNGGA,123519,4807.039,N,01131.000,E,1,08,0.9,,,,,,"}) {
            const Told some = told(decoder, text, at_us);
            all.insert(all.end(), some.samples.begin(), some.samples.end());
        }
        for (const Sample& sample : all) {
            places += sample.channel == Channel::position ? 1 : 0;
            speeds += sample.channel == Channel::speed ? 1 : 0;
            // From the sixth second on GGA's.
            if (sample.channel == Channel::position)
                CHECK(sample.lat_e7 == (s < 5 || (s == 5 && places == 6) ? 481173000 : 481173167));
        }
    }
    CHECK(places == 61);  // both in the second in which GGA takes over
    CHECK(speeds == 60);
}

TEST_CASE("A second talker is not listened to while the first speaks") {
    NmeaDecoder decoder;
    const std::string rest = "RMC,102030,A,4807.038,N,01131.000,E,2.0,084.4,010724,,";
    CHECK(told(decoder, "GN" + rest, 0).samples.size() == 3);
    const UtcOffset first = decoder.utc_offset();
    const Told second = told(decoder, "II" + rest, 100000);
    CHECK(second.result == FrameResult::other_sender);
    CHECK(second.samples.empty());
    CHECK(decoder.utc_offset().offset_us == first.offset_us);
    CHECK(told(decoder, "II" + rest, 3100000).samples.size() == 3);
}

TEST_CASE("Angles are exact to the last digit") {
    test::Normals numbers(21);
    for (int i = 0; i < 20000; ++i) {
        const auto e7 = static_cast<std::int32_t>(numbers.between(-9e8, 9e8));
        const std::int64_t size = e7 < 0 ? -static_cast<std::int64_t>(e7) : e7;
        const std::int64_t minutes_e7 = size % 10000000 * 60;
        char text[40];
        std::snprintf(text, sizeof text, "%02d%02d.%07d", static_cast<int>(size / 10000000),
                      static_cast<int>(minutes_e7 / 10000000), static_cast<int>(minutes_e7 % 10000000));
        const char hemisphere = e7 < 0 ? 'S' : 'N';
        std::int32_t back = 0;
        REQUIRE(
            angle_e7({text, static_cast<int>(std::string(text).size())}, {&hemisphere, 1}, 'N', 'S', back));
        REQUIRE(back == e7);
    }
}

TEST_CASE("Random bytes never give what check refuses") {
    const std::string pieces = "$GPRMC,A.0123456789NSEW*\r\n,,,,";
    const std::string good = "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n";
    test::Normals numbers(5);
    NmeaDecoder decoder;
    TimeUs at_us = 0;
    long given = 0;
    for (int i = 0; i < 200000; ++i) {
        std::string bytes(1, static_cast<char>(numbers.uniform() * 256.0));
        const double chance = numbers.uniform();
        if (chance < 0.5) bytes = pieces[static_cast<std::size_t>(numbers.uniform() * 31.0)];
        if (chance < 0.02) bytes = good;
        for (const char c : bytes) {
            const FrameResult result = decoder.take(at_us += 1000, static_cast<std::uint8_t>(c));
            REQUIRE((decoder.sample_count() == 0 || result == FrameResult::taken));
            for (int k = 0; k < decoder.sample_count(); ++k) {
                REQUIRE(check(decoder.sample(k)) == FeedResult::taken);
                ++given;
            }
        }
    }
    CHECK(given > 1000);
    CHECK(decoder.take(at_us - 1, '$') == FrameResult::time_back);
    CHECK(decoder.take(INT64_MAX, '$') == FrameResult::malformed);
    CHECK(sizeof(NmeaDecoder) <= 480);
}

TEST_CASE("A name that differs in one letter is another sentence") {
    for (const char* const name : {"GPGGB", "GPGXA", "GPXGA", "GPRMX", "GPRXC", "GPVTX", "GPVXG"}) {
        INFO(name);
        CHECK(
            told(name + std::string(",123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W")).result ==
            FrameResult::not_ours);
    }
}

TEST_CASE("A place that lacks a part or names no hemisphere is none") {
    const auto place = [](const std::string& where) {
        return told("GPGGA,123519," + where + ",1,08,0.9,545.4,M,46.9,M,,");
    };
    CHECK(place(",N,01131.000,E").result == FrameResult::not_available);
    CHECK(place("4807.038,N,,E").result == FrameResult::not_available);
    CHECK(place("4807.038,X,01131.000,E").result == FrameResult::out_of_range);
    CHECK(place("4807.038,N,01131.000,X").result == FrameResult::out_of_range);
    CHECK(place("4807.038,N,01131.000,").result == FrameResult::out_of_range);
    CHECK(place("0000.000,N,00000.000,E").samples.empty());
    CHECK(place("0000.000,N,01131.000,E").samples.size() == 1);
    CHECK(place("4807.038,N,00000.000,E").samples.size() == 1);
}

TEST_CASE("A course beyond the circle or without letters is none and the speed counts all the same") {
    for (const char* const course : {"360.1", "4x", "-1"}) {
        INFO(course);
        const Told all = told("GPVTG," + std::string(course) + ",T,,M,005.5,N,010.2,K");
        REQUIRE(all.samples.size() == 1);
        CHECK(all.samples[0].channel == Channel::speed);
    }
    CHECK(told("GPVTG,054.7,M,,M,005.5,N,010.2,K").samples.size() == 1);  // not by true north
    CHECK(told("GPVTG,054.7,T,,M,005.5,X,,").result == FrameResult::not_available);
    CHECK(told("GPVTG,054.7,T,,M,005.5,N,010.2,X").samples.at(0).value[0] ==
          Approx(5.5 * 0.5144444).epsilon(1e-6));
    CHECK(told("GPVTG,054.7,T,,M,5.5x,N,,").result == FrameResult::out_of_range);
}

TEST_CASE("Without time or date the place counts and the clock is not told") {
    for (const char* const text : {"GPRMC,,A,4807.038,N,01131.000,E,022.4,084.4,230394,,",
                                   "GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,,,",
                                   "GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,310294,,",
                                   "GPRMC,256119,A,4807.038,N,01131.000,E,022.4,084.4,230394,,"}) {
        INFO(text);
        NmeaDecoder decoder;
        CHECK(told(decoder, text).samples.size() == 3);
        CHECK_FALSE(decoder.utc_offset().known);
    }
}
