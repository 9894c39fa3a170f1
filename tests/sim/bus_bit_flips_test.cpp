// Each bit of a bus's frames turned over: nothing crashes, and no figure becomes nonsense.
#include <catch2/catch.hpp>

#include "log/candump_reader.hpp"
#include "podrate/bus/bus_decoder.hpp"
#include "podrate/estimator.hpp"

using namespace podrate;

namespace {

const std::filesystem::path kLog = PODRATE_SOURCE_DIR "/demo_logs/harrowmere_bus/viner_2.log.zst";

std::vector<bus::CanFrame> first_minute() {
    sim::Problems problems;
    sim::CandumpReader reader(kLog, "", problems);
    std::vector<bus::CanFrame> frames;
    sim::StampedFrame frame;
    while (reader.next(frame)) {
        if (!frames.empty() && frame.time_us - frames.front().time_us > 60 * kSecondUs) break;
        frames.push_back(frame.frame);
    }
    return frames;
}

struct Run {
    bus::BusDecoder decoder;
    Estimator estimator{Parameters{}};
    void take(const bus::CanFrame& frame) {
        decoder.take(frame);
        for (int i = 0; i < decoder.sample_count(); ++i) estimator.feed(decoder.sample(i));
    }
    [[nodiscard]] bool sane() const {
        const Estimate e = estimator.read();
        for (const Real value :
             {e.mass_kg, e.mass_sd_kg, e.flow_kgps, e.flow_sd_kgps, e.yield_kgpm2, e.loss_share, e.loss_low,
              e.loss_high, e.harvested_kg, e.harvested_sd_kg, e.area_m2, e.load_kg}) {
            if (!std::isfinite(value)) return false;
        }
        return e.mass_sd_kg >= Real(0) && e.flow_sd_kgps >= Real(0) && e.area_m2 >= Real(0);
    }
};

// Identifier, the four flags and the length, then the data.
constexpr int kBits = 32 + 2 + 8 + 64;

bus::CanFrame flipped(bus::CanFrame frame, int bit) {
    if (bit < 32) {
        frame.id ^= 1U << bit;
    } else if (bit == 32) {
        frame.extended = !frame.extended;
    } else if (bit == 33) {
        frame.remote = !frame.remote;
    } else if (bit < 42) {
        frame.length = static_cast<std::uint8_t>(frame.length ^ 1U << (bit - 34));
    } else {
        const int of_data = bit - 42;
        frame.data[of_data / 8] = static_cast<std::uint8_t>(frame.data[of_data / 8] ^ 1U << of_data % 8);
    }
    return frame;
}

}  // namespace

TEST_CASE("Every bit of the first minute of frames may be flipped") {
    const std::vector<bus::CanFrame> frames = first_minute();
    REQUIRE(frames.size() > 1000);
    Run run;
    constexpr std::size_t kGoesOn = 100;  // frames after one of the flips, some seconds
    for (std::size_t i = 0; i < frames.size(); ++i) {
        for (int bit = 0; bit < kBits; ++bit) {
            bus::BusDecoder decoder = run.decoder;
            decoder.take(flipped(frames[i], bit));
            for (int s = 0; s < decoder.sample_count(); ++s)
                REQUIRE(check(decoder.sample(s)) == FeedResult::taken);
        }
        Run spoilt = run;
        spoilt.take(flipped(frames[i], static_cast<int>((37 * i) % kBits)));
        const std::size_t end = std::min(frames.size(), i + 1 + kGoesOn);
        for (std::size_t k = i + 1; k < end; ++k) spoilt.take(frames[k]);
        INFO("frame " << i);
        REQUIRE(spoilt.sane());
        run.take(frames[i]);
    }
    REQUIRE(run.sane());
}

TEST_CASE("Every bit of the first hundred lines of candump text may be flipped") {
    sim::LineReader lines(sim::open_bytes(kLog));
    sim::Line line;
    int bad = 0;
    int good = 0;
    for (int i = 0; i < 100 && lines.next(line); ++i) {
        const std::string text(line.text);
        REQUIRE(sim::parse_candump(text).kind == sim::CandumpKind::frame);
        for (std::size_t at = 0; at < text.size(); ++at) {
            for (int bit = 0; bit < 8; ++bit) {
                std::string spoilt = text;
                spoilt[at] = static_cast<char>(spoilt[at] ^ 1 << bit);
                const sim::CandumpLine parsed = sim::parse_candump(spoilt);
                (parsed.kind == sim::CandumpKind::bad ? bad : good) += 1;
                REQUIRE(parsed.frame.length <= 8);
                if (parsed.kind == sim::CandumpKind::frame) REQUIRE(parsed.frame.id <= 0x1FFFFFFF);
            }
        }
    }
    CHECK(bad > 10000);
    CHECK(good > 1000);
}
