#include "podrate/bus/bus_watch.hpp"

#include <catch2/catch.hpp>

#include "core/frames.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::frame_of;

namespace {

struct Watched {
    BusDecoder decoder;
    BusWatch watch;
    void take(const std::string& text, TimeUs time_us) {
        const CanFrame frame = frame_of(text, time_us);
        watch.see(frame, decoder.take(frame), decoder);
    }
};

const std::string kPlace = "09F8011C#40DD4A1FE04341FF";
const std::string kSpeed = "0CFE491C#6E0540E20100FF05";
const std::string kOther = "18FEF100#FFFFFFFFFFFFFFFF";

}  // namespace

TEST_CASE("A bus without a frame for a second is silent") {
    Watched bus;
    CHECK(bus.watch.silent(0));
    bus.take(kOther, 0);
    CHECK_FALSE(bus.watch.silent(kSecondUs));
    CHECK(bus.watch.silent(kSecondUs + 1));
    bus.take(kOther, 2 * kSecondUs);
    CHECK_FALSE(bus.watch.silent(2 * kSecondUs));
}

TEST_CASE("Each quantity has its own age") {
    Watched bus;
    CHECK(bus.watch.age_us(Channel::position, 0) == -1);
    bus.take(kPlace, 100);
    bus.take(kSpeed, 5000);
    CHECK(bus.watch.age_us(Channel::position, 10000) == 9900);
    CHECK(bus.watch.age_us(Channel::speed, 10000) == 5000);
    CHECK(bus.watch.age_us(Channel::weight, 10000) == -1);
    // Frames that give nothing make nothing younger.
    bus.take("09F8011C#FFFFFF7FFFFFFF7F", 20000);
    CHECK(bus.watch.age_us(Channel::position, 20000) == 19900);
    CHECK(bus.watch.age_us(Channel::position, 0) == 0);
}

TEST_CASE("Frames are counted by what became of them") {
    Watched bus;
    bus.take(kPlace, 10000);
    bus.take(kPlace, 10000);
    bus.take(kOther, 20000);
    bus.take(kPlace, 5000);
    bus.take("09F8011C#00", 30000);
    bus.take("09F8011C#FFFFFF7FFFFFFF7F", 40000);
    bus.take("09F8011D#40DD4A1FE04341FF", 50000);
    bus.take("0DF8051C#402B01C14D68EC30", 60000);
    bus.take("09F8011C#40DD4A1F00000080", 70000);
    for (int i = 0; i < kFrameResults; ++i) CHECK(bus.watch.count(static_cast<FrameResult>(i)) == 1);
}

TEST_CASE("More than two thousand frames in a second are a flood") {
    Watched bus;
    TimeUs at_us = 0;
    for (int i = 0; i < 2000; ++i) bus.take(kOther, at_us += 400);
    CHECK_FALSE(bus.watch.flooded(at_us));
    bus.take(kOther, at_us += 400);
    CHECK(bus.watch.flooded(at_us));
    CHECK(bus.watch.most_per_s() == 2001);
    // Told until a second without one has passed.
    bus.take(kOther, 1100000);
    CHECK(bus.watch.flooded(1100000));
    CHECK_FALSE(bus.watch.flooded(2200000));
    bus.take(kOther, 2200000);
    CHECK_FALSE(bus.watch.flooded(2200000));
    CHECK(bus.watch.most_per_s() == 2001);
}

TEST_CASE("A flood that a silence has ended is over") {
    Watched bus;
    TimeUs at_us = 0;
    for (int i = 0; i < 3000; ++i) bus.take(kOther, at_us += 300);
    CHECK(bus.watch.flooded(at_us));
    bus.take(kOther, at_us += 5 * kSecondUs);
    CHECK_FALSE(bus.watch.flooded(at_us));
}

TEST_CASE("A usual bus is no flood") {
    Watched bus;
    for (TimeUs at_us = 0; at_us < 10 * kSecondUs; at_us += 1000) {
        bus.take(kOther, at_us);
        REQUIRE_FALSE(bus.watch.flooded(at_us));
    }
    CHECK(bus.watch.most_per_s() == 1000);
}

TEST_CASE("The controller's state is as it was told") {
    BusWatch watch;
    CHECK(watch.controller() == Controller::active);
    watch.controller(Controller::passive);
    CHECK(watch.controller() == Controller::passive);
    watch.controller(Controller::off);
    CHECK(watch.controller() == Controller::off);
    CHECK(sizeof(BusWatch) <= 136);
}
