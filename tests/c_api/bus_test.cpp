// Bus and receiver through the C header: what the decoders give, and what is refused.
#include <catch2/catch.hpp>
#include <cstring>
#include <memory>

#include "core/frames.hpp"
#include "podrate/bus/bus_decoder.hpp"
#include "podrate/bus/nmea_sentence.hpp"
#include "podrate/podrate.h"

using namespace podrate;

namespace {

constexpr const char* kPlace = "09F8011C#40DD4A1FE04341FF";

struct KeptBus {
    std::unique_ptr<podrate_bus> bus = std::make_unique<podrate_bus>();
    podrate_senders senders = {};
    podrate_heard heard = {};
    explicit KeptBus(std::int64_t now_us = 0) {
        podrate_default_senders(&senders);
        CHECK(podrate_bus_init(bus.get(), &senders, now_us) == PODRATE_OK);
    }
    podrate_status take(const bus::CanFrame& from) {
        podrate_can_frame frame = {};
        frame.time_us = from.time_us;
        frame.id = from.id;
        frame.extended = from.extended ? 1 : 0;
        frame.remote = from.remote ? 1 : 0;
        frame.length = from.length;
        std::memcpy(frame.data, from.data, sizeof frame.data);
        return podrate_bus_take(bus.get(), &frame, &heard);
    }
    podrate_status take(const char* text, std::int64_t time_us) {
        return take(test::frame_of(text, time_us));
    }
    [[nodiscard]] podrate_bus_health look(std::int64_t now_us) const {
        podrate_bus_health health = {};
        CHECK(podrate_bus_look(bus.get(), now_us, &health) == PODRATE_OK);
        return health;
    }
};

bool same(const podrate_sample& a, const Sample& b) {
    return a.time_us == b.time_us && a.channel == static_cast<int>(b.channel) && a.count == b.count &&
           std::memcmp(a.value, b.value, sizeof a.value) == 0 && a.lat_e7 == b.lat_e7 && a.lon_e7 == b.lon_e7;
}

// The identifiers that are read, from three senders, with data that wander.
bus::CanFrame wandering(std::uint32_t i) {
    constexpr std::uint32_t kIds[] = {0x0CFE4900, 0x0CFE4800, 0x18FEE800, 0x09F80100, 0x09F80200,
                                      0x0DF11900, 0x0CF01300, 0x0CCBFF00, 0x0DF80500, 0x09F80100,
                                      0x18EEFF00, 0x0DF01000, 0x18FF5000, 0x18FEF100};
    bus::CanFrame frame;
    frame.time_us = 20000 * static_cast<TimeUs>(i);
    frame.id = kIds[i % 14] | (0x80U + i / 97 % 3);
    frame.extended = true;
    frame.length = static_cast<std::uint8_t>(i % 41 == 0 ? 7 : 8);
    std::uint32_t noise = i * 2654435761U;
    for (std::uint8_t& byte : frame.data) {
        noise = noise * 1664525U + 1013904223U;
        byte = static_cast<std::uint8_t>(noise >> (noise & 0x80000000U ? 24U : 30U));
    }
    if (frame.id >> 8U == 0x0CCBFF) {
        const std::uint8_t weight[] = {0x03, 0x00, 0x4B, 0x00, frame.data[4], frame.data[5], 0x01, 0x00};
        std::memcpy(frame.data, weight, sizeof weight);
    }
    return frame;
}

}  // namespace

TEST_CASE("The C header hears in a bus what the decoder hears") {
    KeptBus kept;
    bus::BusDecoder decoder;
    int samples = 0;
    int times = 0;
    for (std::uint32_t i = 0; i < 20000; ++i) {
        const bus::CanFrame frame = wandering(i);
        const bus::FrameResult result = decoder.take(frame);
        REQUIRE(kept.take(frame) == PODRATE_OK);
        REQUIRE(kept.heard.result == static_cast<int>(result));
        REQUIRE(kept.heard.count == decoder.sample_count());
        for (int j = 0; j < kept.heard.count; ++j) REQUIRE(same(kept.heard.sample[j], decoder.sample(j)));
        samples += kept.heard.count;
        if (kept.heard.utc_told != 0) {
            ++times;
            REQUIRE(kept.heard.utc_us == frame.time_us + decoder.utc_offset().offset_us);
        }
        REQUIRE(kept.heard.drum_rpm == decoder.drum().rpm);
    }
    CHECK(samples > 1000);
    CHECK(times > 100);
}

TEST_CASE("A time of day is told once, by the frame that brought it") {
    KeptBus kept;
    // 126992, GPS, 2014-08-17 06:15:35 or so
    REQUIRE(kept.take("0DF01080#00F0B13F90DBA20D", 1000000) == PODRATE_OK);
    REQUIRE(kept.heard.utc_told == 1);
    const std::int64_t utc_us = kept.heard.utc_us;
    CHECK(utc_us / 1000000 / 86400 == 16305);
    REQUIRE(kept.take(kPlace, 1000000) == PODRATE_OK);
    CHECK(kept.heard.count == 1);
    CHECK(kept.heard.utc_told == 0);
    REQUIRE(kept.take(kPlace, 1200000) == PODRATE_OK);
    CHECK(kept.heard.utc_told == 0);
    REQUIRE(kept.take("0DF01080#01F0B13F90DBA20D", 1300000) == PODRATE_OK);
    CHECK(kept.heard.utc_told == 1);
    CHECK(kept.heard.utc_us == utc_us);
}

TEST_CASE("One wild stamp does not shut out the bus, and a gap costs three frames") {
    KeptBus kept(5000000);
    CHECK(kept.take(kPlace, 4999999) == PODRATE_TIME_BACK);
    CHECK(kept.take(kPlace, -1) == PODRATE_OUT_OF_RANGE);
    CHECK(kept.take(kPlace, 5000000) == PODRATE_OK);
    CHECK(kept.take(kPlace, 900000000000) == PODRATE_TIME_AHEAD);
    CHECK(kept.heard.result == PODRATE_REFUSED_TIME);
    CHECK(kept.heard.count == 0);
    CHECK(kept.take(kPlace, 5100000) == PODRATE_OK);
    CHECK(kept.heard.count == 1);
    for (int i = 0; i < 3; ++i) CHECK(kept.take(kPlace, 100000000 + 1000 * i) == PODRATE_TIME_AHEAD);
    CHECK(kept.take(kPlace, 100100000) == PODRATE_OK);
    CHECK(kept.heard.count == 1);
    const podrate_bus_health health = kept.look(100100000);
    CHECK(health.results[PODRATE_TAKEN] == 3);
    CHECK(health.results[PODRATE_REFUSED_TIME] == 6);
}

TEST_CASE("The bus's health is told through the C header") {
    KeptBus kept;
    CHECK(kept.look(0).silent == 1);
    for (int i = 0; i < 2500; ++i) REQUIRE(kept.take("18FEF100#FFFFFFFFFFFFFFFF", 300 * i) == PODRATE_OK);
    CHECK(kept.heard.result == PODRATE_NOT_OURS);
    podrate_bus_health health = kept.look(750000);
    CHECK(health.flooded == 1);
    CHECK(health.silent == 0);
    CHECK(health.most_per_s == 2500);
    CHECK(health.controller == PODRATE_CAN_ACTIVE);
    CHECK(podrate_bus_controller(kept.bus.get(), PODRATE_CAN_OFF) == PODRATE_OK);
    CHECK(podrate_bus_controller(kept.bus.get(), 3) == PODRATE_NO_SUCH);
    health = kept.look(5000000);
    CHECK(health.controller == PODRATE_CAN_OFF);
    CHECK(health.silent == 1);
    CHECK(health.flooded == 0);
    for (const std::int64_t age_us : health.age_us) CHECK(age_us == -1);
}

TEST_CASE("A receiver's bytes give through the C header what they give the decoder") {
    podrate_receiver receiver = {};
    CHECK(podrate_receiver_init(&receiver, 0) == PODRATE_OK);
    bus::NmeaDecoder decoder;
    const std::string text =
        "$GPGGA,092750.000,5321.6802,N,00630.3372,W,1,8,1.03,61.7,M,55.2,M,,*76\r\n"
        "$GPRMC,092750.000,A,5321.6802,N,00630.3372,W,10.02,31.66,280511,,,A*72\r\n"
        "$GPRMC,092751.000,A,5321.6802,N,00630.3372,W,0.02,31.66,280511,,,A*00\r\n";
    int samples = 0;
    int times = 0;
    int broken = 0;
    podrate_heard heard = {};
    std::int64_t time_us = 0;
    for (const char c : text) {
        const auto byte = static_cast<std::uint8_t>(c);
        REQUIRE(podrate_receiver_take(&receiver, ++time_us, byte, &heard) == PODRATE_OK);
        REQUIRE(heard.result == static_cast<int>(decoder.take(time_us, byte)));
        REQUIRE(heard.count == decoder.sample_count());
        for (int j = 0; j < heard.count; ++j) REQUIRE(same(heard.sample[j], decoder.sample(j)));
        samples += heard.count;
        times += heard.utc_told;
        broken += heard.result == PODRATE_MALFORMED ? 1 : 0;
        if (heard.utc_told != 0) CHECK(heard.utc_us == 1306574870000000);  // 2011-05-28T09:27:50Z
    }
    CHECK(samples == 3);
    CHECK(times == 1);
    CHECK(broken == 1);
    CHECK(podrate_receiver_take(&receiver, 0, 'x', &heard) == PODRATE_TIME_BACK);
    CHECK(heard.result == PODRATE_REFUSED_TIME);
    CHECK(podrate_receiver_take(&receiver, 60000000, 'x', &heard) == PODRATE_TIME_AHEAD);
}

TEST_CASE("Null pointers, blank storage and senders that cannot be are refused by the bus") {
    KeptBus kept;
    podrate_receiver receiver = {};
    podrate_bus blank = {};
    podrate_can_frame frame = {};
    podrate_heard heard = {};
    podrate_bus_health health = {};
    const podrate_status null[] = {
        podrate_default_senders(nullptr),
        podrate_bus_init(nullptr, &kept.senders, 0),
        podrate_bus_init(&blank, nullptr, 0),
        podrate_bus_take(nullptr, &frame, &heard),
        podrate_bus_take(kept.bus.get(), nullptr, &heard),
        podrate_bus_take(kept.bus.get(), &frame, nullptr),
        podrate_bus_controller(nullptr, 0),
        podrate_bus_look(nullptr, 0, &health),
        podrate_bus_look(kept.bus.get(), 0, nullptr),
        podrate_receiver_init(nullptr, 0),
        podrate_receiver_take(nullptr, 0, 0, &heard),
    };
    for (const podrate_status status : null) CHECK(status == PODRATE_NULL_POINTER);
    CHECK(podrate_bus_take(&blank, &frame, &heard) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_bus_look(&blank, 0, &health) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_bus_controller(&blank, 0) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_receiver_take(&receiver, 0, 0, &heard) == PODRATE_NOT_INITIALISED);
    std::memcpy(&blank, kept.bus.get(), sizeof blank);  // moved
    CHECK(podrate_bus_take(&blank, &frame, &heard) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_bus_init(&blank, &kept.senders, -1) == PODRATE_OUT_OF_RANGE);
    CHECK(podrate_receiver_init(&receiver, -1) == PODRATE_OUT_OF_RANGE);
    CHECK(podrate_bus_look(kept.bus.get(), -1, &health) == PODRATE_OUT_OF_RANGE);
    const auto refused = [&](auto spoil) {
        podrate_senders senders = kept.senders;
        spoil(senders);
        return podrate_bus_init(&blank, &senders, 0) == PODRATE_OUT_OF_RANGE;
    };
    CHECK(refused([](podrate_senders& s) { s.speed_from = 254; }));
    CHECK(refused([](podrate_senders& s) { s.hits_from = 254; }));
    CHECK(refused([](podrate_senders& s) { s.cells = 5; }));
    CHECK(refused([](podrate_senders& s) { s.hopper_element = 4096; }));
    CHECK(refused([](podrate_senders& s) { s.first_cell_element = 4096; }));
    CHECK(refused([](podrate_senders& s) { s.reel_element = 4096; }));
}
