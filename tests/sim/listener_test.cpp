#include <catch2/catch.hpp>

#include "convert/candump_text.hpp"
#include "live/listener.hpp"

using namespace podrate;

namespace {

constexpr TimeUs kStart = 1751032800 * kSecondUs;

// A listener whose host clock is set by hand.
struct Bench {
    explicit Bench(bool on_arrival = false)
        : listener(Parameters{}, {}, on_arrival,
                   {[this] { return now_us; }, [this](const sim::LiveFigures& f) { said.push_back(f); },
                    [this](const std::string& why) { bad.push_back(why); }}) {}

    void send(const Sample& sample, bool stamped = true) {
        const int frames = encoder.encode(sample);
        for (int i = 0; i < frames; ++i) listener.take_frame(encoder.frame(i), stamped);
    }
    // A standing machine, weighed at 10 Hz; host and stamps go together.
    void work(TimeUs from_us, int tenths, bool weight = true) {
        for (int i = 0; i < tenths; ++i) {
            const TimeUs t = from_us + i * kSecondUs / 10;
            now_us += kSecondUs / 10;
            send(speed_sample(t, 0.0F));
            if (weight) send(weight_sample(t, 100.0F + 0.001F * static_cast<float>(i % 7)));
            listener.tick();
        }
    }

    TimeUs now_us = 5 * kSecondUs;
    std::vector<sim::LiveFigures> said;
    std::vector<std::string> bad;
    bus::BusEncoder encoder;
    sim::Listener listener;
};

}  // namespace

TEST_CASE("A listener says its figures once a second, by the samples' own time") {
    Bench bench;
    bench.work(kStart, 50);
    REQUIRE(bench.said.size() == 5);
    for (std::size_t i = 0; i < 5; ++i) {
        CHECK(bench.said[i].time_us / kSecondUs == kStart / kSecondUs + static_cast<TimeUs>(i));
        CHECK(bench.said[i].input == sim::LiveInput::good);
        CHECK(bench.said[i].estimate.started);
    }
    CHECK(static_cast<double>(bench.said[4].estimate.mass_kg) == Approx(100.0).margin(1.0));
    CHECK(bench.bad.empty());
}

TEST_CASE("Silence is told within two seconds, again each second, and no figure with it") {
    Bench bench;
    bench.work(kStart, 30);
    const std::size_t before = bench.said.size();
    TimeUs first_told_us = 0;
    for (int i = 0; i < 20; ++i) {  // 5 s of ticks
        bench.now_us += kSecondUs / 4;
        bench.listener.tick();
        if (first_told_us == 0 && bench.said.size() > before) first_told_us = (i + 1) * kSecondUs / 4;
    }
    CHECK(first_told_us > 0);
    CHECK(first_told_us <= 2 * kSecondUs);
    REQUIRE(bench.said.size() == before + 4);
    for (std::size_t i = before; i < bench.said.size(); ++i) {
        CHECK(bench.said[i].input == sim::LiveInput::silent);
        CHECK_FALSE(bench.said[i].estimate.started);
        CHECK(sim::live_line(bench.said[i], "Etc/UTC").find("t/h") == std::string::npos);
        CHECK(sim::live_json(bench.said[i]).find("\"load_rate_tph\":null") != std::string::npos);
    }
    CHECK(sim::live_line(bench.said.back(), "Etc/UTC") == "14:00:07 no input that can be used for 4 s\n");
    bench.work(kStart + 8 * kSecondUs, 20);
    CHECK(bench.said.back().input == sim::LiveInput::good);
}

TEST_CASE("Where nothing ever comes that is told too") {
    Bench bench;
    for (int i = 0; i < 8; ++i) {
        bench.now_us += kSecondUs / 4;
        bench.listener.tick();
    }
    REQUIRE_FALSE(bench.said.empty());
    CHECK(bench.said[0].input == sim::LiveInput::silent);
    CHECK(bench.said[0].quiet_s <= 2.0);
}

TEST_CASE("Without a weight no figure is said, within two seconds, whatever else comes") {
    Bench bench;
    bench.work(kStart, 30);
    bench.work(kStart + 3 * kSecondUs, 40, false);
    REQUIRE(bench.said.size() == 7);
    CHECK(bench.said[3].input == sim::LiveInput::good);  // the last weight is 0.1 s old
    CHECK(bench.said[5].input == sim::LiveInput::no_weight);
    CHECK(bench.said[6].input == sim::LiveInput::no_weight);
    CHECK(sim::live_line(bench.said[6], "Etc/UTC") == "14:00:06 no weight for 3 s\n");
    bench.work(kStart + 7 * kSecondUs, 20);
    CHECK(bench.said.back().input == sim::LiveInput::good);
}

TEST_CASE("A stamp that leaps costs only its frame") {
    Bench bench;
    bench.work(kStart, 20);
    bench.send(speed_sample(kStart + 90000000 * kSecondUs, 0.0F));
    bench.work(kStart + 2 * kSecondUs, 20);
    CHECK(bench.said.size() == 4);
    CHECK(bench.bad.size() == 1);
    // A true gap is believed once the next frame agrees; a stamp that goes back is not.
    bench.work(kStart + 60 * kSecondUs, 20);
    CHECK(bench.bad.size() == 1);
    CHECK(bench.said.back().time_us == kStart + 61 * kSecondUs);
    bench.send(speed_sample(kStart, 0.0F));
    CHECK(bench.bad.size() == 2);
}

TEST_CASE("Frames without stamps, or all of them where told so, go by the host's clock") {
    for (const bool on_arrival : {false, true}) {
        Bench bench(on_arrival);
        for (int i = 0; i < 30; ++i) {
            bench.now_us += kSecondUs / 10;
            bench.send(weight_sample(kStart, 100.0F + 0.001F * static_cast<float>(i % 7)), on_arrival);
        }
        REQUIRE(bench.said.size() >= 3);
        CHECK(bench.said.back().time_us <= bench.now_us);
        CHECK(bench.said.back().time_us > 5 * kSecondUs);
    }
}

TEST_CASE("A receiver's sentences give speed beside a bus's weight") {
    Bench bench(true);
    // The example of RMC that goes round in many descriptions: 22.4 knots.
    const std::string rmc = "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n";
    for (int i = 0; i < 20; ++i) {
        bench.now_us += kSecondUs / 10;
        bench.send(weight_sample(kStart, 100.0F + 0.001F * static_cast<float>(i % 7)));
        bench.listener.take_text(rmc.substr(0, 30));
        bench.listener.take_text(rmc.substr(30));
    }
    CHECK(bench.bad.empty());
    CHECK(static_cast<double>(bench.listener.estimator().read().speed_mps) == Approx(22.4 * 1852.0 / 3600.0));
    bench.listener.take_text("$GPRMC,123519,A,4807.038,N*00\r\n");
    CHECK(bench.bad.size() == 1);
}

TEST_CASE("A listener tells what is amiss with the bus, and when it is well again") {
    Bench bench;
    bench.work(kStart, 20);
    CHECK(bench.said.back().bus == sim::LiveBus::good);
    bench.listener.take_controller(bus::Controller::passive);
    bench.work(kStart + 2 * kSecondUs, 20);
    CHECK(bench.said.back().input == sim::LiveInput::good);
    CHECK(sim::live_line(bench.said.back(), "Etc/UTC").find("bus full of errors") != std::string::npos);
    bench.listener.take_controller(bus::Controller::off);
    bench.now_us += 2 * kSecondUs;
    bench.listener.tick();
    CHECK(bench.said.back().input == sim::LiveInput::silent);
    CHECK(sim::live_line(bench.said.back(), "Etc/UTC").find("off the bus") != std::string::npos);
    CHECK(sim::live_json(bench.said.back()).find("\"bus\":\"off\"") != std::string::npos);
    bench.work(kStart + 6 * kSecondUs, 20);
    CHECK(bench.said.back().bus == sim::LiveBus::good);
}

TEST_CASE("Frames of which none is known are told apart from silence, and from a flood") {
    Bench bench;
    bus::CanFrame stranger;
    stranger.extended = true;
    stranger.id = 0x18FEF100;
    stranger.length = 8;
    CHECK(bench.said.empty());
    for (int i = 0; i < 20; ++i) {
        bench.now_us += kSecondUs / 10;
        bench.listener.take_frame(stranger, false);
        bench.listener.tick();
    }
    REQUIRE_FALSE(bench.said.empty());
    CHECK(bench.said.back().bus == sim::LiveBus::good);
    CHECK(sim::live_line(bench.said.back(), "Etc/UTC").find("none gives a value") != std::string::npos);
    for (int i = 0; i < 6000; ++i) {
        bench.now_us += kSecondUs / 4000;
        bench.listener.take_frame(stranger, false);
        bench.listener.tick();
    }
    CHECK(bench.said.back().bus == sim::LiveBus::flooded);
    bench.now_us += 3 * kSecondUs;
    bench.listener.tick();
    CHECK(bench.said.back().bus == sim::LiveBus::silent);
}

TEST_CASE("What can't be used is told with its frame and what was done") {
    Bench bench;
    bench.work(kStart, 20);
    bus::CanFrame brief;
    brief.time_us = kStart + 2 * kSecondUs;
    brief.extended = true;
    brief.id = 0x0CFE4980;
    brief.length = 2;
    bench.listener.take_frame(brief, true);
    REQUIRE(bench.bad.size() == 1);
    CHECK(bench.bad[0] == "frame 0CFE4980 is too short for its message, or no data; frame skipped");
    brief.time_us = kStart;
    bench.listener.take_frame(brief, true);
    REQUIRE(bench.bad.size() == 2);
    CHECK(bench.bad[1].find("its time goes back; frame skipped") != std::string::npos);
}
