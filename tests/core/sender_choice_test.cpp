// Which of several senders is listened to.
#include "podrate/bus/sender_choice.hpp"

#include <catch2/catch.hpp>
#include <cstdio>

#include "core/frames.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::frame_of;
using Heard = SenderChoice::Heard;

namespace {

constexpr TimeUs kTenthUs = 100000;

// Ten times a second each; true where the first was listened to throughout.
bool only_first(SenderChoice& choice, TimeUs from_us, int tenths, SenderKey first, std::uint8_t first_kind,
                SenderKey second, std::uint8_t second_kind) {
    bool only = true;
    for (int i = 0; i < tenths; ++i) {
        const TimeUs at_us = from_us + i * kTenthUs;
        only = choice.hear(at_us, first, first_kind) == Heard::chosen && only;
        only = choice.hear(at_us, second, second_kind) == Heard::other && only;
    }
    return only;
}

std::string speed_frame(const char* id, int mm_s) {
    char text[40];
    std::snprintf(text, sizeof text, "%s#%02X%02XFFFFFFFFFFFF", id, mm_s & 0xFF, mm_s >> 8);
    return text;
}

}  // namespace

TEST_CASE("Of equals the first heard is listened to") {
    SenderChoice choice;
    CHECK(choice.hear(0, 1, 0) == Heard::newly_chosen);
    CHECK(only_first(choice, kTenthUs, 1000, 1, 0, 2, 0));
}

TEST_CASE("A worse kind never takes over from one that speaks") {
    SenderChoice choice;
    choice.hear(0, 1, 1);
    CHECK(only_first(choice, kTenthUs, 1000, 1, 1, 2, 2));
    CHECK(only_first(choice, 101 * kSecondUs, 100, 1, 1, 1, 2));  // of the same sender
}

TEST_CASE("A better kind takes over when it has been steady") {
    SenderChoice choice;
    choice.hear(0, 1, 2);
    for (int i = 0; i < 50; ++i) {
        CHECK(choice.hear(i * kTenthUs, 1, 2) == Heard::chosen);
        CHECK(choice.hear(i * kTenthUs, 2, 0) == Heard::other);
    }
    CHECK(choice.hear(5 * kSecondUs, 2, 0) == Heard::newly_chosen);
    CHECK(choice.hear(5 * kSecondUs, 1, 2) == Heard::other);
    CHECK(choice.hear(5 * kSecondUs + 1, 2, 0) == Heard::chosen);
}

TEST_CASE("A better one that comes and goes does not take over") {
    SenderChoice choice;
    choice.hear(0, 1, 2);
    for (int s = 0; s < 102; ++s) {
        choice.hear(s * kSecondUs, 1, 2);
        // Two seconds of silence in each six
        if (s % 6 < 4) CHECK(choice.hear(s * kSecondUs, 2, 0) == Heard::other);
    }
    // A message a second is steady.
    int until = 0;
    while (choice.hear((102 + until) * kSecondUs, 2, 0) == Heard::other) {
        choice.hear((102 + until) * kSecondUs, 1, 2);
        ++until;
    }
    CHECK(until == 5);
}

TEST_CASE("Three seconds of silence and another is listened to") {
    SenderChoice choice;
    choice.hear(0, 1, 0);
    CHECK(choice.hear(3 * kSecondUs, 2, 2) == Heard::other);
    CHECK(choice.hear(3 * kSecondUs + 1, 2, 2) == Heard::newly_chosen);
    // The better one comes back: not at once.
    CHECK(choice.hear(4 * kSecondUs, 1, 0) == Heard::other);
    for (int i = 1; i < 50; ++i) {
        CHECK(choice.hear(4 * kSecondUs + i * kTenthUs, 1, 0) == Heard::other);
        CHECK(choice.hear(4 * kSecondUs + i * kTenthUs, 2, 2) == Heard::chosen);
    }
    CHECK(choice.hear(9 * kSecondUs, 1, 0) == Heard::newly_chosen);
}

TEST_CASE("The best of three takes over") {
    SenderChoice choice;
    choice.hear(0, 1, 3);
    bool other = true;
    for (int i = 0; i < 50; ++i) {
        const TimeUs at_us = i * kTenthUs;
        choice.hear(at_us, 1, 3);
        other = choice.hear(at_us, 2, 1) == Heard::other && other;
        other = choice.hear(at_us, 3, 0) == Heard::other && other;
    }
    CHECK(other);
    CHECK(choice.hear(5 * kSecondUs, 2, 1) == Heard::other);
    CHECK(choice.hear(5 * kSecondUs, 3, 0) == Heard::newly_chosen);
}

TEST_CASE("The sender preferred comes before the better kind") {
    SenderChoice choice;
    choice.prefer(7);
    choice.hear(0, 1, 0);
    for (int i = 0; i < 50; ++i) {
        choice.hear(i * kTenthUs, 1, 0);
        CHECK(choice.hear(i * kTenthUs, 7, 3) == Heard::other);
    }
    CHECK(choice.hear(5 * kSecondUs, 7, 3) == Heard::newly_chosen);
    CHECK(only_first(choice, 5 * kSecondUs, 300, 7, 3, 1, 0));
    CHECK(choice.hear(50 * kSecondUs, 1, 0) == Heard::newly_chosen);
}

TEST_CASE("The decoder prefers ground speed to wheel speed to the receiver's") {
    struct {
        const char* id;
        int mm_s;
    } const by_rank[] = {{"0CFE491C", 1000}, {"0CFE481C", 1100}};
    BusDecoder decoder;
    // The wheel is heard first; five seconds later the ground speed has taken over.
    for (int tenth = 0; tenth < 100; ++tenth) {
        int given = 0;
        float speed_mps = 0.0F;
        for (int i = 1; i >= 0; --i) {
            decoder.take(frame_of(speed_frame(by_rank[i].id, by_rank[i].mm_s + tenth % 2),
                                  tenth * kTenthUs + (1 - i) * 1000));
            given += decoder.sample_count();
            if (decoder.sample_count() == 1) speed_mps = decoder.sample(0).value[0];
        }
        REQUIRE(given == (tenth == 50 ? 2 : 1));
        REQUIRE(speed_mps < (tenth < 50 ? 1.2F : 1.05F));
        REQUIRE(speed_mps >= (tenth < 50 ? 1.1F : 1.0F));
    }
}

TEST_CASE("The decoder takes a heading from a message whose speed is another's") {
    BusDecoder decoder;
    decoder.take(frame_of(speed_frame("0CFE491C", 1000), 0));
    CHECK(decoder.take(frame_of("09F8021D#00FC5C3D8B00FFFF", 1000)) == FrameResult::taken);
    REQUIRE(decoder.sample_count() == 1);
    CHECK(decoder.sample(0).channel == Channel::heading);
    CHECK(decoder.take(frame_of("09F8021D#00FCFFFF8B00FFFF", 9000)) == FrameResult::other_sender);
}

TEST_CASE("A sender that knows nothing is silent") {
    BusDecoder decoder;
    decoder.take(frame_of(speed_frame("0CFE491C", 1000), 0));
    for (int tenth = 1; tenth <= 30; ++tenth) {
        CHECK(decoder.take(frame_of("0CFE491C#FFFFFFFFFFFFFF00", tenth * kTenthUs)) ==
              FrameResult::not_available);
        const FrameResult other =
            decoder.take(frame_of(speed_frame("0CFE481C", 900), tenth * kTenthUs + 1000));
        CHECK(other == (tenth < 30 ? FrameResult::other_sender : FrameResult::taken));
    }
}

TEST_CASE("Addresses told in the settings are preferred") {
    BusSettings settings;
    settings.tilt_from = 0x31;
    BusDecoder decoder(settings);
    decoder.take(frame_of("0DF11930#00FF7FA3FE0C02FF", 0));
    FrameResult last = FrameResult::taken;
    for (int tenth = 1; tenth <= 51; ++tenth) {
        decoder.take(frame_of("0DF11930#00FF7FA3FE0C02FF", tenth * kTenthUs));
        last = decoder.take(frame_of("0CF02931#00007C00807EFFFF", tenth * kTenthUs + 3000));
        CHECK(last == (tenth < 51 ? FrameResult::other_sender : FrameResult::taken));
    }
}
