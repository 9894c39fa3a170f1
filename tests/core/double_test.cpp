// Float against double: the same source, built twice.
#include <catch2/catch.hpp>
#include <vector>

#include "core/machine.hpp"
#include "core_double/face.hpp"
#include "podrate/estimator.hpp"

using namespace podrate;

namespace {

struct Keep {
    std::vector<Sample>* samples;
    void operator()(const Sample& sample) const { samples->push_back(sample); }
};

std::vector<podrate_test_double::PlainSample> plain(const std::vector<Sample>& samples) {
    std::vector<podrate_test_double::PlainSample> all;
    for (const Sample& s : samples) {
        all.push_back({s.time_us,
                       static_cast<int>(s.channel),
                       s.count,
                       {s.value[0], s.value[1], s.value[2], s.value[3]},
                       s.lat_e7,
                       s.lon_e7});
    }
    return all;
}

}  // namespace

TEST_CASE("Three hours in float and in double harvest the same within 0.05 per cent") {
    std::vector<Sample> samples;
    test::Machine<Keep> machine(Keep{&samples}, 5);
    machine.stand(10.0);
    while (machine.truth().area_m2 < 26000.0) {
        for (int i = 0; i < 4; ++i) {
            machine.drive(260.0, 0.72 + 0.05 * i);
            machine.drive(28.0, 1.25, false);
        }
        machine.stand(30.0);
        machine.tip();
        machine.stand(15.0);
    }
    REQUIRE(machine.now_us() - samples.front().time_us > 3 * 3600 * kSecondUs);
    Estimator single{Parameters{}};
    for (const Sample& sample : samples) single.feed(sample);
    const Estimate e = single.read();
    const podrate_test_double::Result wide = podrate_test_double::run(plain(samples));
    CHECK(wide.bytes_in_real == 8);
    CHECK(sizeof(Real) == 4);
    CHECK(wide.loads == single.load_count());
    CHECK(wide.loads >= 8);
    CHECK(static_cast<double>(e.harvested_kg) == Approx(wide.harvested_kg).epsilon(0.0005));
    CHECK(static_cast<double>(e.area_m2) == Approx(wide.area_m2).epsilon(0.00001));
    CHECK(static_cast<double>(e.harvested_kg) == Approx(machine.truth().harvested_kg).epsilon(0.005));
}
