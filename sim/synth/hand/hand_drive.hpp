// A drive by hand, step by step: plant, sensors, the log's rows, and the core that reads them.
#pragma once

#include <array>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>

#include "log/log_reader.hpp"
#include "log/sample_feed.hpp"
#include "podrate/estimator.hpp"
#include "synth/hand/hand_fault.hpp"
#include "synth/hand/hand_viner.hpp"
#include "synth/write/machine_record.hpp"

namespace podrate::sim {

// The core is fed from the text of the log as it grows, by the reader of logs: what it tells is what a replay
// of the saved log tells. The same scenario, parameters and orders at the same steps give the same log.
class HandDrive {
  public:
    // Takes the first machine of a scenario. The first step is done.
    HandDrive(Scenario scenario, const Parameters& parameters);
    HandDrive(const HandDrive&) = delete;
    HandDrive& operator=(const HandDrive&) = delete;

    // kStepS on.
    void step();

    [[nodiscard]] HandViner& viner() { return viner_; }
    [[nodiscard]] const HandViner& viner() const { return viner_; }
    [[nodiscard]] long steps() const { return steps_; }           // done so far
    [[nodiscard]] TimeUs now_us() const;                          // of the newest
    [[nodiscard]] TimeUs row_us() const { return row_.time_us; }  // of the newest row used; 0: none yet
    [[nodiscard]] const Estimator& estimator() const { return estimator_; }
    [[nodiscard]] Estimator& estimator() { return estimator_; }  // to answer alarms
    [[nodiscard]] const Scenario& scenario() const { return scenario_; }
    [[nodiscard]] const ScenarioMachine& machine() const { return scenario_.machines.front(); }
    [[nodiscard]] const Parameters& parameters() const { return parameters_; }
    [[nodiscard]] const std::string& log_text() const { return record_.log_text(); }

    // Brings fault number `index` of kHandFaults about from the next step on, or takes it away. A tip in part
    // stays until the next tip.
    void turn_fault(std::size_t index);
    [[nodiscard]] bool fault_on(std::size_t index) const;

    // Whether a fault of that kind holds now.
    [[nodiscard]] bool fault_under_way(FaultKind kind) const;

    // What was driven so far as a day's folder with its truth. Throws RefusedInput where it can't be written.
    void save(const std::filesystem::path& folder) const;

  private:
    class GrowingText;

    [[nodiscard]] double next_s() const { return static_cast<double>(steps_) / kStepsPerSecond; }
    void read_rows();

    Scenario scenario_;
    Parameters parameters_;
    Gang gang_;
    HandViner viner_;
    MachineRecord record_;
    Problems problems_;
    GrowingText* text_;  // owned by the reader
    std::unique_ptr<LogReader> reader_;
    std::unique_ptr<SampleFeed> feed_;
    LogRow row_;
    Estimator estimator_;
    long steps_ = 0;
    std::array<std::optional<std::size_t>, kHandFaultCount> under_way_;  // index of Scenario::faults
};

// The first of simulated_1, simulated_2, ... that is not there yet.
std::filesystem::path free_day_folder(const std::filesystem::path& where);

}  // namespace podrate::sim
