// The estimator behind a bus knows what it knows from samples.
#include <catch2/catch.hpp>

#include "core/machine.hpp"
#include "podrate/bus/bus_decoder.hpp"
#include "podrate/bus/bus_encoder.hpp"
#include "podrate/estimator.hpp"

using namespace podrate;

namespace {

struct Both {
    Estimator by_sample{Parameters{}};
    Estimator by_frame{Parameters{}};
    bus::BusEncoder encoder;
    bus::BusDecoder decoder;
    long frames = 0;
    long refused = 0;
};

struct Feed {
    Both* both;
    void operator()(const Sample& sample) const {
        both->by_sample.feed(sample);
        const int frames = both->encoder.encode(sample);
        for (int i = 0; i < frames; ++i) {
            if (both->decoder.take(both->encoder.frame(i)) != bus::FrameResult::taken) ++both->refused;
            for (int k = 0; k < both->decoder.sample_count(); ++k) {
                if (both->by_frame.feed(both->decoder.sample(k)) != FeedResult::taken) ++both->refused;
            }
            ++both->frames;
        }
    }
};

}  // namespace

TEST_CASE("Half an hour through frames gives the same harvest") {
    Both both;
    test::Machine<Feed> machine(Feed{&both}, 5);
    machine.stand(10.0);
    for (int i = 0; i < 5; ++i) {
        machine.drive(250.0, 0.8);
        machine.drive(25.0, 1.2, false);
    }
    machine.tip();
    machine.stand(15.0);
    machine.drive(300.0, 0.8);
    CHECK(both.frames > 25000);
    CHECK(both.refused == 0);
    const Estimate a = both.by_sample.read();
    const Estimate b = both.by_frame.read();
    CHECK(b.time_us == a.time_us);
    CHECK(b.state == a.state);
    CHECK(b.faults == a.faults);
    CHECK(both.by_frame.load_count() == 1);
    CHECK(both.by_frame.load_count() == both.by_sample.load_count());
    // Weights differ by half a gram, speeds by half a millimetre a second.
    CHECK(static_cast<double>(b.harvested_kg) == Approx(static_cast<double>(a.harvested_kg)).epsilon(1e-4));
    CHECK(static_cast<double>(b.area_m2) == Approx(static_cast<double>(a.area_m2)).epsilon(1e-4));
    CHECK(static_cast<double>(b.flow_kgps) == Approx(static_cast<double>(a.flow_kgps)).epsilon(1e-2));
}
