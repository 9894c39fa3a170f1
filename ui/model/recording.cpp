#include "model/recording.hpp"

#include <algorithm>
#include <memory>

#include "replay/day_replay.hpp"

namespace podrate::ui {
namespace {

constexpr TimeUs kApartUs = kSecondUs / 2;

class Recorder : public sim::ReplaySink {
  public:
    explicit Recorder(MachineRecording& to) : to_(to) {}
    void on_row(const sim::LogRow&, const Estimate& estimate) override {
        if (!to_.snapshots.empty() && estimate.time_us - to_.snapshots.back().time_us < kApartUs) return;
        to_.snapshots.push_back(estimate);
    }
    void on_load(const Load& load) override { sim::keep_newest(to_.loads, load); }

  private:
    MachineRecording& to_;
};

}  // namespace

std::size_t MachineRecording::index_after(TimeUs time_us) const {
    const auto after = std::upper_bound(snapshots.begin(), snapshots.end(), time_us,
                                        [](TimeUs t, const Estimate& e) { return t < e.time_us; });
    return static_cast<std::size_t>(after - snapshots.begin());
}

const Estimate* MachineRecording::at(TimeUs time_us) const {
    const std::size_t after = index_after(time_us);
    return after == 0 ? nullptr : &snapshots[after - 1];
}

Recording record_day(const std::filesystem::path& folder, const std::function<void(double share)>& progress) {
    const sim::Day day = sim::read_day(folder);
    Recording recording;
    recording.label = day.label;
    recording.time_zone = day.time_zone;
    recording.machines.resize(day.machines.size());
    sim::ReplayHooks hooks;
    hooks.progress = progress;
    hooks.sink = [&recording](const sim::Machine&, std::size_t index) -> std::unique_ptr<sim::ReplaySink> {
        return std::make_unique<Recorder>(recording.machines[index]);
    };
    const sim::DayResult result = sim::replay_day(day, hooks);
    for (std::size_t i = 0; i < result.machines.size(); ++i) {
        recording.machines[i].id = result.machines[i].id;
        recording.machines[i].parameters = result.machines[i].parameters;
        recording.machines[i].alarms = result.machines[i].alarms;
        recording.machines[i].refusal = result.machines[i].refusal;
    }
    if (!result.any_usable()) {
        throw sim::RefusedInput({folder.string(), 0,
                                 "holds no log that can be used: " + result.machines.front().refusal,
                                 "mend the logs named in day.toml"});
    }
    recording.first_us = result.first_us;
    recording.last_us = result.last_us;
    return recording;
}

}  // namespace podrate::ui
