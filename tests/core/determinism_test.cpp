#include <catch2/catch.hpp>
#include <vector>

#include "core/bits.hpp"
#include "core/machine.hpp"
#include "podrate/estimator.hpp"

using namespace podrate;
using test::bits_of;

namespace {

struct Keep {
    std::vector<Sample>* samples;
    void operator()(const Sample& sample) const { samples->push_back(sample); }
};

// An hour with turns, a tip, a gap and a pause, a loss sensor and trays.
std::vector<Sample> an_hour() {
    std::vector<Sample> samples;
    test::Machine<Keep> machine(Keep{&samples}, 42);
    machine.stand(10.0);
    for (int i = 0; i < 6; ++i) {
        for (int s = 0; s < 200; ++s) {
            for (int tenth = 0; tenth < 10; ++tenth) {
                samples.push_back(hits_sample(machine.now_us() + 100000, static_cast<float>(1 + s % 4)));
                machine.drive(0.1, 0.75 + 0.03 * i);
            }
        }
        machine.drive(25.0, 1.2, false);
        samples.push_back(tray_sample(machine.now_us(), machine.now_us() - 60 * kSecondUs, 0.05F, 0.2F));
    }
    machine.tip();
    machine.silent = true;
    machine.stand(100.0);
    machine.silent = false;
    machine.drive(1500.0, 0.8);
    machine.stand(30.0);
    machine.tip();
    machine.drive(400.0, 0.9);
    return samples;
}

}  // namespace

TEST_CASE("The same samples give the same bits") {
    const std::vector<Sample> samples = an_hour();
    Estimator one{Parameters{}};
    Estimator two{Parameters{}};
    for (const Sample& sample : samples) {
        REQUIRE(one.feed(sample) == two.feed(sample));
        if (sample.time_us % kSecondUs == 0) REQUIRE(bits_of(one.read()) == bits_of(two.read()));
    }
    CHECK(one.load_count() > 0);
    CHECK(one.read().tray_checks == 6);
    CHECK(one.read().loss_sensor);
    CHECK(bits_of(one.read()) == bits_of(two.read()));
}

TEST_CASE("Reading in between changes nothing") {
    const std::vector<Sample> samples = an_hour();
    Estimator quiet{Parameters{}};
    Estimator asked{Parameters{}};
    for (const Sample& sample : samples) {
        quiet.feed(sample);
        asked.feed(sample);
        (void)asked.read();
    }
    CHECK(bits_of(quiet.read()) == bits_of(asked.read()));
}

TEST_CASE("A copy goes on alone") {
    const std::vector<Sample> samples = an_hour();
    const std::size_t half = samples.size() / 2;
    Estimator original{Parameters{}};
    for (std::size_t i = 0; i < half; ++i) original.feed(samples[i]);
    Estimator copy = original;
    const std::string at_half = bits_of(original.read());
    CHECK(bits_of(copy.read()) == at_half);
    for (std::size_t i = half; i < samples.size(); ++i) copy.feed(samples[i]);
    CHECK(bits_of(original.read()) == at_half);
    for (std::size_t i = half; i < samples.size(); ++i) original.feed(samples[i]);
    CHECK(bits_of(original.read()) == bits_of(copy.read()));
    CHECK(bits_of(original.read()) != at_half);
}

TEST_CASE("Runs do not depend on when they happen") {
    // The same hour a whole number of seconds later: only times differ.
    std::vector<Sample> samples = an_hour();
    Estimator now{Parameters{}};
    for (const Sample& sample : samples) now.feed(sample);
    Estimator later{Parameters{}};
    for (Sample& sample : samples) {
        sample.time_us += 86400 * 365 * kSecondUs;
        sample.about_us += 86400 * 365 * kSecondUs;
        later.feed(sample);
    }
    CHECK(now.read().harvested_kg == later.read().harvested_kg);
    CHECK(now.read().flow_kgps == later.read().flow_kgps);
    CHECK(now.load_count() == later.load_count());
}
