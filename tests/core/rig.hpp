// An estimator with a simulated machine before it.
#pragma once

#include <vector>

#include "core/machine.hpp"
#include "podrate/estimator.hpp"

namespace podrate::test {

class Rig {
  public:
    explicit Rig(std::uint64_t seed = 1, const Parameters& parameters = Parameters{})
        : estimator(parameters), machine(Feed{this}, seed) {}
    Rig(const Rig&) = delete;
    Rig& operator=(const Rig&) = delete;

    [[nodiscard]] Estimate read() const { return estimator.read(); }
    [[nodiscard]] const Truth& truth() const { return machine.truth(); }

    // Each load as it was closed.
    std::vector<Load> loads;
    // The most that the harvested total ever fell from its highest, kg.
    double worst_fall_kg = 0.0;
    long refused = 0;

    // How many seconds each state was read.
    std::array<double, kWorkStates> seconds_in{};

    Estimator estimator;

  private:
    struct Feed {
        Rig* rig;
        void operator()(const Sample& sample) const { rig->take(sample); }
    };

    void take(const Sample& sample) {
        if (estimator.feed(sample) != FeedResult::taken) ++refused;
        keep(estimator.last_load());
        if (sample.channel != Channel::weight) return;
        const Estimate e = estimator.read();
        seconds_in[static_cast<std::size_t>(e.state)] += 0.1;
        const auto harvested_kg = static_cast<double>(e.harvested_kg);
        if (harvested_kg > highest_kg_) highest_kg_ = harvested_kg;
        if (highest_kg_ - harvested_kg > worst_fall_kg) worst_fall_kg = highest_kg_ - harvested_kg;
    }

    // A load may be revised while the same tip goes on.
    void keep(const Load& load) {
        if (load.number > loads.size()) loads.push_back(load);
        if (load.number == loads.size() && load.number > 0) loads.back() = load;
    }

    double highest_kg_ = 0.0;

  public:
    Machine<Feed> machine;
};

}  // namespace podrate::test
