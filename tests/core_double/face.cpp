#include "core_double/face.hpp"

#include "podrate/estimator.hpp"

namespace podrate_test_double {

// `podrate` is another word here: the build renames the namespace so that both cores fit into one program.
namespace {

podrate::Sample to_sample(const PlainSample& plain) {
    podrate::Sample sample;
    sample.time_us = plain.time_us;
    sample.channel = static_cast<podrate::Channel>(plain.channel);
    sample.count = static_cast<std::uint8_t>(plain.count);
    for (int i = 0; i < 4; ++i) sample.value[i] = plain.value[i];
    sample.lat_e7 = plain.lat_e7;
    sample.lon_e7 = plain.lon_e7;
    sample.about_us = plain.about_us;
    return sample;
}

podrate::Parameters to_parameters(const std::vector<double>& values) {
    podrate::Parameters parameters;
    for (std::size_t i = 0; i < podrate::kParameterCount; ++i)
        parameters.*podrate::kParameterTable[i].member = values.at(i);
    return parameters;
}

}  // namespace

Result run(const std::vector<PlainSample>& samples) {
    podrate::Estimator estimator{podrate::Parameters{}};
    for (const PlainSample& plain : samples) estimator.feed(to_sample(plain));
    const podrate::Estimate e = estimator.read();
    return {static_cast<int>(sizeof(podrate::Real)), estimator.load_count(), e.harvested_kg, e.area_m2};
}

struct Core::Inside {
    explicit Inside(const podrate::Parameters& parameters) : estimator(parameters) {}
    podrate::Estimator estimator;
};

Core::Core(const std::vector<double>& parameters)
    : inside_(std::make_unique<Inside>(to_parameters(parameters))) {}

Core::~Core() = default;

void Core::feed(const PlainSample& sample) {
    inside_->estimator.feed(to_sample(sample));
}

Core::Said Core::said() const {
    const podrate::Estimate e = inside_->estimator.read();
    return {e.mass_kg,      e.flow_kgps, e.loss_share,
            e.harvested_kg, e.area_m2,   inside_->estimator.loss_so_far().lost_kg};
}

}  // namespace podrate_test_double
