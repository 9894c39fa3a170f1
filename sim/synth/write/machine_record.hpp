// One machine's day in the making: what its sensors make of the truth, row by row.
#pragma once

#include "synth/sense/row_clock.hpp"
#include "synth/sense/sensors.hpp"
#include "synth/write/log_writer.hpp"

namespace podrate::sim {

inline constexpr int kStepsPerSecond = 10;
inline constexpr double kStepS = 1.0 / kStepsPerSecond;

class MachineRecord {
  public:
    // Scenario and machine must outlive it.
    MachineRecord(const Scenario& scenario, const ScenarioMachine& machine);

    // The plant's step number `step`, of kStepS, with the truth at its end: the rows that fall into it. From 0,
    // none left out.
    void follow(long step, const VinerTruth& now);

    [[nodiscard]] const std::string& log_text() const { return log_.text(); }
    [[nodiscard]] const std::string& truth_text() const { return truth_.text(); }

  private:
    const Scenario& scenario_;
    Sensors sensors_;
    LogWriter log_;
    TruthWriter truth_;
    RowClock clock_;
    VinerTruth before_;  // the truth a step ago
    double last_row_s_ = 0.0;
};

}  // namespace podrate::sim
