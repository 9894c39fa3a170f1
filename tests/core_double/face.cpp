#include "core_double/face.hpp"

#include "podrate/estimator.hpp"

namespace podrate_test_double {

// `podrate` is another word here: the build renames the namespace so that both cores fit into one program.
Result run(const std::vector<PlainSample>& samples) {
    podrate::Estimator estimator{podrate::Parameters{}};
    for (const PlainSample& plain : samples) {
        podrate::Sample sample;
        sample.time_us = plain.time_us;
        sample.channel = static_cast<podrate::Channel>(plain.channel);
        sample.count = static_cast<std::uint8_t>(plain.count);
        for (int i = 0; i < 4; ++i) sample.value[i] = plain.value[i];
        sample.lat_e7 = plain.lat_e7;
        sample.lon_e7 = plain.lon_e7;
        estimator.feed(sample);
    }
    const podrate::Estimate e = estimator.read();
    return {static_cast<int>(sizeof(podrate::Real)), estimator.load_count(), e.harvested_kg, e.area_m2};
}

}  // namespace podrate_test_double
