// What a machine lost beside the peas that it kept, by the rate at which they passed.
#pragma once

#include <vector>

#include "replay/machine_replay.hpp"

namespace podrate::sim {

// By all that is known of the loss at the day's end.
class LossByRate {
  public:
    explicit LossByRate(const MachineResult& machine);
    // Lost for each kg kept, where peas passed at that rate, kg/s at the cut.
    [[nodiscard]] double lost_per_kg(double passed_kgps) const;
    // Standard deviation of ln of that.
    [[nodiscard]] double ln_sd(double passed_kgps) const;

  private:
    struct Entry {
        double lost_per_kg;
        double ln_sd;
    };
    [[nodiscard]] const Entry& entry(double passed_kgps) const;
    std::vector<Entry> entries_;
};

}  // namespace podrate::sim
