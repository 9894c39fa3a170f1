// What the knowledge of the loss rests on.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"

namespace podrate {

// How far speed has varied while harvesting, and what else has spoken of the loss.
class LossKnowledge {
  public:
    // Over that distance the machine cut at `area_rate` m2/s.
    void worked(Real distance_m, Real area_rate_m2ps);
    void tray() {
        if (trays_ < kMost) ++trays_;
    }

    // Standard deviation of ln(area rate) over the last hours of work.
    [[nodiscard]] Real speed_spread() const;
    [[nodiscard]] std::uint16_t trays() const { return trays_; }

    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from);
    void resume_trays(std::uint16_t trays) { trays_ = trays < kMost ? trays : kMost; }

  private:
    static constexpr std::uint16_t kMost = 60000;
    Real over_m_ = Real(0);
    Real mean_ = Real(0);
    Real variance_ = Real(0);
    std::uint16_t trays_ = 0;
};

}  // namespace podrate
