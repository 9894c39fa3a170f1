// Senders are followed by their NAME.
#include <catch2/catch.hpp>
#include <cstdio>

#include "core/frames.hpp"
#include "podrate/bus/address_book.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::frame_of;
using Claim = AddressBook::Claim;

namespace {

constexpr std::uint64_t kOne = 0xA00081000C000001ULL;
constexpr std::uint64_t kTwo = 0xA00081000C000002ULL;

CanFrame claim(TimeUs time_us, std::uint64_t name, int source) {
    char text[40];
    std::snprintf(text, sizeof text, "18EEFF%02X#", source);
    std::string frame = text;
    for (int i = 0; i < 8; ++i) {
        std::snprintf(text, sizeof text, "%02X", static_cast<unsigned>((name >> (8 * i)) & 0xFF));
        frame += text;
    }
    return frame_of(frame, time_us);
}

CanFrame speed(TimeUs time_us, int source, int mm_s = 1000) {
    char text[40];
    std::snprintf(text, sizeof text, "0CFE49%02X#%02X%02XFFFFFFFFFFFF", source, mm_s & 0xFF, mm_s >> 8);
    return frame_of(text, time_us);
}

}  // namespace

TEST_CASE("The book knows who has which address") {
    AddressBook book;
    CHECK(book.sender_at(0x1C) == 0x1C);
    CHECK(book.claim(kOne, 0x1C) == Claim::first);
    CHECK(book.claim(kOne, 0x1C) == Claim::known);
    const SenderKey one = book.sender_at(0x1C);
    CHECK(one >= 256);
    CHECK(book.claim(kTwo, 0x1C) == Claim::changed);
    CHECK(book.sender_at(0x1C) != one);
    CHECK(book.claim(kOne, 0x1D) == Claim::changed);
    CHECK(book.sender_at(0x1D) == one);
    // Finds no address: 254 belongs to nobody.
    CHECK(book.claim(kOne, 0xFE) == Claim::changed);
    CHECK(book.sender_at(0x1D) == 0x1D);
    CHECK(book.sender_at(0xFE) == 0xFE);
    CHECK(book.claim(kOne, 0x20) == Claim::changed);
    CHECK(book.sender_at(0x20) == one);
}

TEST_CASE("A full book goes on with addresses") {
    AddressBook book;
    for (int i = 0; i < AddressBook::kMost; ++i)
        CHECK(book.claim(1000 + static_cast<std::uint64_t>(i), static_cast<std::uint8_t>(i)) == Claim::first);
    CHECK(book.claim(5, 100) == Claim::known);
    CHECK(book.sender_at(100) == 100);
    // It takes an address from one that is known.
    CHECK(book.claim(5, 3) == Claim::changed);
    CHECK(book.sender_at(3) == 3);
    CHECK(book.claim(1003, 100) == Claim::changed);
    CHECK(book.sender_at(100) == 256 + 3);
}

TEST_CASE("A sender that moves to another address is followed") {
    for (const bool claimed_before : {true, false}) {
        BusDecoder decoder;
        TimeUs at_us = 0;
        if (claimed_before) decoder.take(claim(at_us, kOne, 0x1C));
        CHECK(decoder.take(speed(at_us += 10000, 0x1C)) == FrameResult::taken);
        if (!claimed_before) CHECK(decoder.take(claim(at_us += 10000, kOne, 0x1C)) == FrameResult::taken);
        CHECK(decoder.take(speed(at_us += 10000, 0x1C, 1001)) == FrameResult::taken);
        // The other takes its address, by a lower NAME; it claims a new one.
        decoder.take(claim(at_us += 10000, kTwo, 0x1C));
        CHECK(decoder.take(speed(at_us += 10000, 0x1C)) == FrameResult::other_sender);
        decoder.take(claim(at_us += 10000, kOne, 0x1D));
        CHECK(decoder.take(speed(at_us += 10000, 0x1C)) == FrameResult::other_sender);
        CHECK(decoder.take(speed(at_us += 10000, 0x1D)) == FrameResult::taken);
    }
}

TEST_CASE("An address taken by another is not listened to until it is chosen anew") {
    BusDecoder decoder;
    decoder.take(claim(0, kOne, 0x1C));
    CHECK(decoder.take(speed(0, 0x1C)) == FrameResult::taken);
    decoder.take(claim(kSecondUs, kTwo, 0x1C));
    for (int tenth = 11; tenth <= 30; ++tenth)
        CHECK(decoder.take(speed(tenth * 100000, 0x1C)) == FrameResult::other_sender);
    CHECK(decoder.take(speed(3100000, 0x1C)) == FrameResult::taken);
}

TEST_CASE("A known device at the address of one without a NAME is another") {
    BusDecoder decoder;
    decoder.take(claim(0, kOne, 0x80));
    CHECK(decoder.take(speed(1000, 0x1C)) == FrameResult::taken);
    decoder.take(claim(2000, kOne, 0x1C));
    CHECK(decoder.take(speed(3000, 0x1C, 999)) == FrameResult::other_sender);
}

TEST_CASE("One that loses its address for a moment is listened to as before") {
    BusDecoder decoder;
    decoder.take(claim(0, kOne, 0x1C));
    decoder.take(speed(0, 0x1C));
    decoder.take(claim(10000, kTwo, 0x1C));
    decoder.take(claim(20000, kOne, 0x1C));
    CHECK(decoder.take(speed(30000, 0x1C)) == FrameResult::taken);
}

TEST_CASE("The address preferred stands for the device that has it") {
    BusSettings settings;
    settings.speed_from = 0x1C;
    BusDecoder decoder(settings);
    decoder.take(claim(0, kOne, 0x1C));
    decoder.take(claim(1000, kOne, 0x80));
    decoder.take(claim(2000, kTwo, 0x1C));
    int from_one = 0;
    for (int tenth = 1; tenth <= 60; ++tenth) {
        decoder.take(speed(tenth * 100000, 0x1C, 500));
        decoder.take(speed(tenth * 100000 + 1000, 0x80));
        if (decoder.sample_count() == 1) ++from_one;
    }
    CHECK(from_one == 10);
}

TEST_CASE("The address preferred may be claimed by one heard elsewhere before") {
    BusSettings settings;
    settings.speed_from = 0x1C;
    BusDecoder decoder(settings);
    decoder.take(claim(0, kOne, 0x80));
    decoder.take(claim(1000, kOne, 0x1C));
    decoder.take(speed(2000, 0x20));
    FrameResult last = FrameResult::taken;
    for (int tenth = 1; tenth <= 51; ++tenth) {
        decoder.take(speed(tenth * 100000, 0x20));
        last = decoder.take(speed(tenth * 100000 + 1000, 0x1C));
    }
    CHECK(last == FrameResult::taken);
}
