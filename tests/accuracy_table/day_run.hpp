// Makes a scenario's day in a folder of its own, replays it, and holds it against the truth.
#pragma once

#include <filesystem>
#include <functional>

#include "replay/sink.hpp"
#include "score/score.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::accuracy {

class DayRun {
  public:
    DayRun(const sim::Scenario& scenario, const std::string& name);
    ~DayRun();
    DayRun(const DayRun&) = delete;
    DayRun& operator=(const DayRun&) = delete;

    [[nodiscard]] std::filesystem::path day() const { return folder_ / "day"; }

    // Score of the scenario's only machine; `tell` may change what the estimator is told, `also` sees its
    // rows.
    [[nodiscard]] sim::MachineScore score(const std::function<void(Parameters&)>& tell = nullptr,
                                          sim::ReplaySink* also = nullptr) const;
    // Total error that the estimator states, kg, one standard deviation, at the end of the last score().
    [[nodiscard]] double stated_sd_kg() const { return stated_sd_kg_; }

  private:
    std::filesystem::path folder_;
    mutable double stated_sd_kg_ = 0.0;
};

// Runs `work(i)` for i from 0 to count - 1 on all processors.
void on_all_cores(std::size_t count, const std::function<void(std::size_t)>& work);

}  // namespace podrate::accuracy
