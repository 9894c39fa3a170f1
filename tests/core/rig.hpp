// An estimator with a simulated machine before it.
#pragma once

#include <vector>

#include "core/machine.hpp"
#include "podrate/estimator.hpp"

namespace podrate::test {

// What fits the machine simulated: no bout beside its own, and its own picking loss.
inline Parameters told_right() {
    Parameters parameters;
    parameters.bout_overlap_m = Real(0);
    parameters.picking_loss_share = Real(0.04);
    return parameters;
}

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

    // How long each alarm was shown, s, and when it was last seen to begin.
    [[nodiscard]] double seconds_shown(AlarmId id) const { return shown_s_[static_cast<std::size_t>(id)]; }
    [[nodiscard]] TimeUs began_us(AlarmId id) const { return began_us_[static_cast<std::size_t>(id)]; }
    [[nodiscard]] bool shows(AlarmId id) const { return (read().alarms & (1U << static_cast<int>(id))) != 0; }

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
        for (std::size_t i = 0; i < kAlarms; ++i) {
            if ((e.alarms & (1U << i)) == 0) continue;
            if ((shown_ & (1U << i)) == 0) began_us_[i] = e.time_us;
            shown_s_[i] += 0.1;
        }
        shown_ = e.alarms;
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
    std::array<double, kAlarms> shown_s_{};
    std::array<TimeUs, kAlarms> began_us_{};
    std::uint16_t shown_ = 0;

  public:
    Machine<Feed> machine;
};

}  // namespace podrate::test
