#include "model/playback.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using podrate::ui::Playback;

namespace {

constexpr TimeUs kFirst = 1000 * kSecondUs;
constexpr TimeUs kLast = 5000 * kSecondUs;

}  // namespace

TEST_CASE("Playback moves with real time at its pace and stops at the end") {
    Playback playback(kFirst, kLast);
    playback.tick(10.0);
    CHECK(playback.now_us() == kFirst);  // paused
    playback.toggle();
    playback.tick(10.0);
    CHECK(playback.now_us() == kFirst + 10 * kSecondUs);
    while (playback.rate() < 600) playback.faster();
    playback.faster();
    CHECK(playback.rate() == 600);
    playback.tick(1.0);
    CHECK(playback.now_us() == kFirst + 610 * kSecondUs);
    playback.tick(1000.0);
    CHECK(playback.now_us() == kLast);
    CHECK(playback.shown_us() == kLast);
    CHECK_FALSE(playback.playing());
    playback.toggle();
    CHECK(playback.playing());
    CHECK(playback.now_us() == kFirst);
}

TEST_CASE("Pace runs from 1 to 600 and no further") {
    Playback playback(kFirst, kLast);
    playback.slower();
    CHECK(playback.rate() == 1);
    int last = 1;
    for (int i = 0; i < 20; ++i) {
        playback.faster();
        CHECK(playback.rate() >= last);
        last = playback.rate();
    }
    CHECK(last == 600);
}

TEST_CASE("Seeking stays inside the day and shows at once") {
    Playback playback(kFirst, kLast);
    playback.seek(kFirst + 60 * kSecondUs);
    CHECK(playback.shown_us() == kFirst + 60 * kSecondUs);
    playback.step(-300.0);
    CHECK(playback.now_us() == kFirst);
    playback.seek_share(0.5);
    CHECK(playback.share() == Approx(0.5));
    playback.seek_share(7.0);
    CHECK(playback.now_us() == kLast);
}

TEST_CASE("Figures change at most twice a second while playing") {
    Playback playback(kFirst, kLast);
    for (int i = 0; i < 5; ++i) playback.faster();
    playback.toggle();
    TimeUs shown = playback.shown_us();
    int changes = 0;
    for (int frame = 0; frame < 200; ++frame) {  // ten seconds at 20 frames a second
        playback.tick(0.05);
        if (playback.shown_us() != shown) ++changes;
        shown = playback.shown_us();
    }
    CHECK(changes <= 20);
    CHECK(changes >= 18);
}
