// Samples to frames and back.
#include "podrate/bus/bus_encoder.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/frames.hpp"
#include "core/normals.hpp"

using namespace podrate;
using namespace podrate::bus;

namespace {

struct Loop {
    BusEncoder encoder;
    BusDecoder decoder;
    TimeUs at_us = 0;

    // What comes out of a sample sent 50 ms after the one before.
    std::vector<Sample> through(Sample sample) {
        at_us += 50000;
        sample.time_us = at_us;
        std::vector<Sample> out;
        const int frames = encoder.encode(sample);
        for (int i = 0; i < frames; ++i) {
            decoder.take(encoder.frame(i));
            for (int k = 0; k < decoder.sample_count(); ++k) out.push_back(decoder.sample(k));
        }
        return out;
    }
};

Loop loop_of_cells(std::uint8_t cells) {
    BusSettings settings;
    settings.cells = cells;
    return {BusEncoder(), BusDecoder(settings)};
}

// The float nearest to what the message can tell of a value.
float told(double value, double step) {
    return static_cast<float>(std::round(value / step) * step);
}

float at(test::Normals& numbers, double low, double high) {
    return static_cast<float>(numbers.between(low, high));
}

constexpr double kStepDeg = 1e-4 * 57.29577951308232;

}  // namespace

TEST_CASE("The frames are those that the messages' layouts ask for") {
    BusEncoder encoder;
    REQUIRE(encoder.encode(position_sample(7, 525000000, -12500000)) == 1);
    CHECK(encoder.frame(0).id == 0x09F80180);
    CHECK(encoder.frame(0).time_us == 7);
    CHECK(encoder.frame(0).extended);
    CHECK(encoder.frame(0).length == 8);
    const auto bytes = [&] {
        char text[20] = {};
        for (int i = 0; i < 8; ++i)
            std::snprintf(text + 2 * i, 3, "%02X", static_cast<unsigned>(encoder.frame(0).data[i]));
        return std::string(text);
    };
    CHECK(bytes() == "40DD4A1FE04341FF");
    encoder.encode(speed_sample(0, 1.39F));
    CHECK(encoder.frame(0).id == 0x0CFE4980);
    CHECK(bytes() == "6E05FFFFFFFFFFFD");
    encoder.encode(heading_sample(0, 90.00021F));
    CHECK(encoder.frame(0).id == 0x09F80280);
    CHECK(bytes() == "FFFC5C3DFFFFFFFF");
    encoder.encode(tilt_sample(0, -2.0F, 3.0F));
    CHECK(encoder.frame(0).id == 0x0DF11980);
    CHECK(bytes() == "FFFF7FA3FE0C02FF");
    encoder.encode(weight_sample(0, 1234.567F));
    CHECK(encoder.frame(0).id == 0x0CCBFF80);
    CHECK(bytes() == "03004B0087D61200");
    encoder.encode(reel_sample(0, true));
    CHECK(bytes() == "03008D0001000000");
    encoder.encode(hits_sample(0, 100000.0F));
    CHECK(encoder.frame(0).id == 0x18FF5080);
    CHECK(bytes() == "A0860100FFFF5048");
    CHECK(encoder.encode_drum(0, 240.5F) == 1);
    CHECK(bytes() == "FFFFFFFF84075048");
    CHECK(encoder.encode_claim(0, 0xA00081000C000001ULL) == 1);
    CHECK(encoder.frame(0).id == 0x18EEFF80);
    CHECK(bytes() == "0100000C008100A0");
}

TEST_CASE("What passes through frames comes back to its message's resolution") {
    test::Normals numbers(3);
    Loop loop = loop_of_cells(0);
    for (int i = 0; i < 20000; ++i) {
        const float kg = at(numbers, -2000.0, 20000.0);
        const auto weight = loop.through(weight_sample(0, kg));
        REQUIRE(weight.size() == 1);
        REQUIRE(weight[0].channel == Channel::weight);
        REQUIRE(weight[0].count == 1);
        REQUIRE(weight[0].time_us == loop.at_us);
        REQUIRE(weight[0].value[0] == told(static_cast<double>(kg), 0.001));

        const float mps = at(numbers, 0.0, 30.0);
        const auto speed = loop.through(speed_sample(0, mps));
        REQUIRE(speed.size() == 1);
        REQUIRE(speed[0].channel == Channel::speed);
        REQUIRE(speed[0].value[0] == Approx(told(static_cast<double>(mps), 0.001)).epsilon(1e-7));

        const float pitch_deg = at(numbers, -59.99, 59.99);
        const float roll_deg = at(numbers, -59.99, 59.99);
        const auto tilt = loop.through(tilt_sample(0, pitch_deg, roll_deg));
        REQUIRE(tilt.size() == 1);
        REQUIRE(tilt[0].channel == Channel::tilt);
        REQUIRE(std::abs(tilt[0].value[0] - pitch_deg) < 0.51 * kStepDeg);
        REQUIRE(std::abs(tilt[0].value[1] - roll_deg) < 0.51 * kStepDeg);

        const auto lat_e7 = static_cast<std::int32_t>(numbers.between(-9e8, 9e8));
        const auto lon_e7 = static_cast<std::int32_t>(numbers.between(-1.8e9, 1.8e9));
        const auto place = loop.through(position_sample(0, lat_e7, lon_e7));
        REQUIRE(place.size() == 1);
        REQUIRE(place[0].lat_e7 == lat_e7);
        REQUIRE(place[0].lon_e7 == lon_e7);

        const float heading_deg = at(numbers, -360.0, 360.0);
        const auto heading = loop.through(heading_sample(0, heading_deg));
        REQUIRE(heading.size() == 1);
        REQUIRE(heading[0].channel == Channel::heading);
        const double off_deg = std::remainder(static_cast<double>(heading[0].value[0] - heading_deg), 360.0);
        REQUIRE(std::abs(off_deg) < 0.51 * kStepDeg);

        const bool on = numbers.uniform() < 0.5;
        const auto reel = loop.through(reel_sample(0, on));
        REQUIRE(reel.size() == 1);
        REQUIRE(reel[0].value[0] == (on ? 1.0F : 0.0F));
    }
}

TEST_CASE("The ends of each channel pass through frames") {
    Loop loop = loop_of_cells(0);
    for (const float kg : {-2000.0F, 0.0F, 20000.0F})
        CHECK(loop.through(weight_sample(0, kg)).at(0).value[0] == kg);
    for (const float mps : {0.0F, 30.0F}) CHECK(loop.through(speed_sample(0, mps)).at(0).value[0] == mps);
    for (const float deg : {-60.0F, 0.0F, 60.0F}) {
        const auto tilt = loop.through(tilt_sample(0, deg, -deg));
        REQUIRE(tilt.size() == 1);
        CHECK(std::abs(tilt[0].value[0] - deg) < kStepDeg);
        CHECK(std::abs(tilt[0].value[1] + deg) < kStepDeg);
    }
    for (const float deg : {-360.0F, 0.0F, 360.0F}) {
        const float back = loop.through(heading_sample(0, deg)).at(0).value[0];
        CHECK(std::abs(std::remainder(static_cast<double>(back), 360.0)) < 0.51 * kStepDeg);
    }
    for (const int sign : {-1, 1}) {
        const auto place = loop.through(position_sample(0, sign * 900000000, sign * 1800000000));
        CHECK(place.at(0).lat_e7 == sign * 900000000);
        CHECK(place.at(0).lon_e7 == sign * 1800000000);
    }
}

TEST_CASE("Cells pass through frames") {
    test::Normals numbers(4);
    for (std::uint8_t cells = 2; cells <= 4; ++cells) {
        Loop loop = loop_of_cells(cells);
        for (int i = 0; i < 3000; ++i) {
            Sample sample = weight_sample(0, 0.0F);
            sample.count = cells;
            for (int k = 0; k < cells; ++k) sample.value[k] = at(numbers, -2000.0, 20000.0);
            const auto out = loop.through(sample);
            REQUIRE(out.size() == 1);
            REQUIRE(out[0].count == cells);
            for (int k = 0; k < cells; ++k)
                REQUIRE(out[0].value[k] == told(static_cast<double>(sample.value[k]), 0.001));
        }
    }
}

TEST_CASE("Hits and drum pass through frames") {
    test::Normals numbers(5);
    Loop loop = loop_of_cells(0);
    CHECK(loop.through(hits_sample(0, 17.0F)).at(0).value[0] == 0.0F);
    for (int i = 0; i < 20000; ++i) {
        const auto hits = static_cast<float>(static_cast<int>(numbers.between(0.0, 200.0)));
        const auto out = loop.through(hits_sample(0, hits));
        REQUIRE(out.size() == 1);
        REQUIRE(out[0].channel == Channel::hits);
        REQUIRE(out[0].value[0] == hits);
        const float rpm = at(numbers, 0.0, 8031.875);
        loop.encoder.encode_drum(loop.at_us, rpm);
        REQUIRE(loop.decoder.take(loop.encoder.frame(0)) == FrameResult::taken);
        REQUIRE(loop.decoder.sample_count() == 0);
        REQUIRE(loop.decoder.drum().rpm == told(static_cast<double>(rpm), 0.125));
    }
}

TEST_CASE("The count of hits comes to its end and goes on") {
    BusEncoder encoder;
    BusDecoder decoder;
    // 0xFB000000 hits are 42,111 times the most that a sample may hold, and some.
    for (int i = 0; i < 42111; ++i) encoder.encode(hits_sample(0, 100000.0F));
    decoder.take(encoder.frame(0));
    float sum = 0.0F;
    for (int i = 1; i <= 2000; ++i) {
        encoder.encode(hits_sample(i * 100000, 50.0F));
        decoder.take(encoder.frame(0));
        sum += decoder.sample(0).value[0];
    }
    CHECK(sum == 100000.0F);
}

TEST_CASE("What has no message or is out of range has no frame") {
    BusEncoder encoder;
    CHECK(encoder.encode(tray_sample(0, 0, 0.03F, 0.2F)) == 0);
    CHECK(encoder.encode(speed_sample(0, 30.1F)) == 0);
    CHECK(encoder.encode(speed_sample(0, std::numeric_limits<float>::quiet_NaN())) == 0);
    CHECK(encoder.encode(position_sample(0, 900000001, 0)) == 0);
    CHECK(encoder.encode_drum(0, -0.1F) == 0);
    CHECK(encoder.encode_drum(0, 8031.9F) == 0);
    CHECK(encoder.encode_drum(0, std::numeric_limits<float>::quiet_NaN()) == 0);
    CHECK(encoder.encode(reel_sample(0, false)) == 1);
    CHECK(sizeof(BusEncoder) <= 112);
}
