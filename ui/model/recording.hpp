// A replayed day in memory: what the estimator said, once a second, for each machine.
#pragma once

#include <string>
#include <vector>

#include "podrate/estimate.hpp"
#include "podrate/load.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::ui {

struct MachineRecording {
    std::string id;
    Parameters parameters;
    std::vector<Estimate> snapshots;  // in order of time, at least a second apart
    std::vector<Load> loads;
    std::vector<sim::AlarmEvent> alarms;  // in order of their beginning
    std::string refusal;                  // why there is nothing, or empty

    // The newest snapshot at or before a time, or nullptr before the first.
    [[nodiscard]] const Estimate* at(TimeUs time_us) const;
    // Index behind that snapshot.
    [[nodiscard]] std::size_t index_after(TimeUs time_us) const;
};

struct Recording {
    std::string label;
    std::string time_zone;
    std::vector<MachineRecording> machines;
    TimeUs first_us = 0;
    TimeUs last_us = 0;
};

inline constexpr TimeUs kSnapshotsApartUs = kSecondUs;

// Writes a machine's replay into its snapshots.
class SnapshotRecorder : public sim::ReplaySink {
  public:
    explicit SnapshotRecorder(MachineRecording& to) : to_(to) {}
    void on_row(const sim::LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const sim::LogRow& row) const override;
    void on_load(const Load& load) override { sim::keep_newest(to_.loads, load); }

  private:
    MachineRecording& to_;
};

}  // namespace podrate::ui
