#include "synth/machine/driver.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

// Common practice, no source.
constexpr double kMemoryS = 90.0;         // over which the liking wanders
constexpr double kReactionS = 8.0;        // until a change of the crop is felt and answered
constexpr double kBetweenDrivers = 0.08;  // how far drivers' likings differ, sd as share
constexpr double kLodgedSlower = 0.35;    // in crop that lies flat
constexpr double kSlowestMps = 0.3;
constexpr double kAnswerLeast = 0.5;
constexpr double kAnswerMost = 1.3;

}  // namespace

Driver::Driver(const ScenarioDriver& driver, double usual_kgpm, std::uint64_t seed, const std::string& id)
    : told_(driver),
      random_(seed, "driver " + id),
      liking_mps_(driver.speed_mps),
      felt_(1.0),
      wish_mps_(driver.speed_mps),
      usual_kgpm_(usual_kgpm) {}

double Driver::wish_mps(double here_kgpm, double lodged, double dt_s) {
    const double pull = dt_s / kMemoryS;
    wander_ += pull * (1.0 - wander_) + told_.speed_spread * std::sqrt(2.0 * pull) * random_.normal();
    felt_ += dt_s / kReactionS * (here_kgpm / usual_kgpm_ - felt_);
    double answer = 1.0;
    if (told_.eases_off > 0.0)
        answer = std::clamp(math::exp(-told_.eases_off * math::ln(std::max(felt_, 0.05))), kAnswerLeast,
                            kAnswerMost);
    wish_mps_ = std::max(liking_mps_ * wander_ * answer * (1.0 - kLodgedSlower * lodged), kSlowestMps);
    return wish_mps_;
}

void Driver::hand_over() {
    liking_mps_ = told_.speed_mps * std::max(0.5, 1.0 + kBetweenDrivers * random_.normal());
}

}  // namespace podrate::sim
