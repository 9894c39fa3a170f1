#include "synth/sense/row_clock.hpp"

#include <algorithm>

namespace podrate::sim {
namespace {

constexpr double kMostShare = 0.45;  // of a period: rows never change places

}  // namespace

RowClock::RowClock(const Scenario& scenario, const ScenarioMachine& machine)
    : rate_hz_(machine.senses.rate_hz),
      jitter_s_(machine.senses.jitter_s),
      random_(scenario.seed, "clock " + machine.id) {}

void RowClock::advance() {
    ++row_;
    next_s_ = static_cast<double>(row_) / rate_hz_;
    if (jitter_s_ <= 0.0) return;
    const double most_s = kMostShare / rate_hz_;
    next_s_ += std::clamp(jitter_s_ * random_.normal(), -most_s, most_s);
}

}  // namespace podrate::sim
