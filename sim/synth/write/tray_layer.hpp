// Lays trays on the ground behind the machines: those that the scenario names, and those that its rates
// bring. What the drum loses falls over some metres, and a check is a few frames some paces apart: what
// counts is a mean along the swath.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "synth/machine/viner_works.hpp"
#include "synth/random.hpp"
#include "synth/write/day_files.hpp"

namespace podrate::sim {

class TrayLayer {
  public:
    explicit TrayLayer(const Scenario& scenario) : named_(scenario.trays) {
        for (const ScenarioMachine& machine : scenario.machines) {
            Rounds rounds = {machine.id, machine.trays_per_h, Random(scenario.seed, "trays " + machine.id)};
            if (rounds.per_h > 0.0) rounds.to_go_s = rounds.random.uniform(0.0, 3600.0 / rounds.per_h);
            rounds_.push_back(rounds);
        }
    }

    // What machine number `machine` does in the step that ends at that time. Call each step.
    void pass(std::size_t machine, double time_s, const VinerTruth& truth, bool whole_second) {
        Rounds& rounds = rounds_[machine];
        const double since_s = time_s - rounds.seen_s;
        rounds.seen_s = time_s;
        if (truth.state != WorkState::harvesting) {
            rounds.harvested_s = 0.0;
            return;
        }
        rounds.harvested_s += since_s;
        const double share = rounds.harvested_s > since_s ? std::min(1.0, since_s / kAlongS) : 1.0;
        rounds.lost_kgpm2 += share * (truth.lost_kgpm2 - rounds.lost_kgpm2);
        const bool settled = rounds.harvested_s >= 2.0 * kAlongS;
        if (settled) lay_named(rounds.id, time_s, rounds.lost_kgpm2);
        // On whole seconds, so that the time written, which has no decimals, is one of harvesting too.
        if (!whole_second || rounds.per_h <= 0.0) return;
        rounds.to_go_s -= 1.0;
        if (rounds.to_go_s > 0.0 || !settled) return;
        // Never close after the last, in the same patch at the same speed, nor in step with the bouts.
        rounds.to_go_s = 3600.0 / rounds.per_h * rounds.random.uniform(0.5, 1.5);
        laid_.push_back({rounds.id, time_s, rounds.lost_kgpm2, false});
    }

    [[nodiscard]] const std::vector<LaidTray>& laid() const { return laid_; }

  private:
    static constexpr double kAlongS = 6.0;  // about 5 m; common practice, no source

    struct Rounds {
        std::string id;
        double per_h;
        Random random;
        double to_go_s = 0.0;  // of harvesting
        double seen_s = 0.0;
        double harvested_s = 0.0;  // without a break
        double lost_kgpm2 = 0.0;   // over the last paces
    };

    // Waits for its machine to harvest.
    void lay_named(const std::string& id, double time_s, double lost_kgpm2) {
        for (std::size_t i = 0; i < named_.size(); ++i) {
            if (named_[i].machine != id || time_s < named_[i].at_s) continue;
            laid_.push_back({id, time_s, lost_kgpm2, true});
            named_.erase(named_.begin() + static_cast<std::ptrdiff_t>(i));
            return;
        }
    }

    std::vector<ScenarioTray> named_;
    std::vector<Rounds> rounds_;
    std::vector<LaidTray> laid_;
};

}  // namespace podrate::sim
