#include "model/recording.hpp"

#include <algorithm>

namespace podrate::ui {

bool SnapshotRecorder::asks_all(const sim::LogRow& row) const {
    return to_.snapshots.empty() || row.time_us - to_.snapshots.back().time_us >= kSnapshotsApartUs;
}

void SnapshotRecorder::on_row(const sim::LogRow& row, const Estimate& estimate) {
    if (asks_all(row)) to_.snapshots.push_back(estimate);
}

std::size_t MachineRecording::index_after(TimeUs time_us) const {
    const auto after = std::upper_bound(snapshots.begin(), snapshots.end(), time_us,
                                        [](TimeUs t, const Estimate& e) { return t < e.time_us; });
    return static_cast<std::size_t>(after - snapshots.begin());
}

const Estimate* MachineRecording::at(TimeUs time_us) const {
    const std::size_t after = index_after(time_us);
    return after == 0 ? nullptr : &snapshots[after - 1];
}

}  // namespace podrate::ui
