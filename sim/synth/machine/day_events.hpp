// What befalls one machine over the day: those that the scenario names, and those that its rates bring.
#pragma once

#include <vector>

#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

class DayEvents {
  public:
    DayEvents(const Scenario& scenario, const ScenarioMachine& machine);

    // The pause or breakdown that is due, or nullptr. It stays due until it is taken.
    [[nodiscard]] const ScenarioEvent* stop_due(double time_s) const;
    void take_stop() { ++next_stop_; }

    // A rest or change of shift that is due at the end of a bout: how long it lasts, 0 where there is none.
    // `hands_over`: other drivers take over.
    double take_rest(double time_s, bool& hands_over);

  private:
    std::vector<ScenarioEvent> stops_;
    std::vector<ScenarioEvent> rests_;
    std::vector<ScenarioShift> shifts_;
    std::size_t next_stop_ = 0;
    std::size_t next_rest_ = 0;
    std::size_t next_shift_ = 0;
};

}  // namespace podrate::sim
