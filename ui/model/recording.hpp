// A replayed day in memory: what the estimator said, twice a second, for each machine.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "podrate/estimate.hpp"
#include "podrate/load.hpp"
#include "replay/alarm_log.hpp"

namespace podrate::ui {

struct MachineRecording {
    std::string id;
    Parameters parameters;
    std::vector<Estimate> snapshots;  // in order of time, at least half a second apart
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

// Replays a day's folder through the same core as the cab. Throws sim::RefusedInput where nothing of it can
// be used.
Recording record_day(const std::filesystem::path& folder, const std::function<void(double share)>& progress);

}  // namespace podrate::ui
