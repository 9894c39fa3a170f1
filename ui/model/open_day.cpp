#include "model/open_day.hpp"

#include "analysis/whole_day.hpp"
#include "model/light_result.hpp"
#include "replay/sink_group.hpp"
#include "series/series_recorder.hpp"

namespace podrate::ui {
namespace {

// Of the progress told, what replaying takes; looking back takes the rest.
constexpr double kReplayShare = 0.92;

void keep_recording(const sim::DayResult& result, Recording& recording) {
    for (std::size_t i = 0; i < result.machines.size(); ++i) {
        MachineRecording& machine = recording.machines[i];
        machine.id = result.machines[i].id;
        machine.parameters = result.machines[i].parameters;
        machine.alarms = result.machines[i].alarms;
        machine.refusal = result.machines[i].refusal;
    }
    recording.first_us = result.first_us;
    recording.last_us = result.last_us;
}

// Its folder and what was read of it are known.
std::unique_ptr<OpenDay> replayed(std::unique_ptr<OpenDay> open, const LoadProgress& progress,
                                  const std::atomic<bool>& cancel) {
    const sim::Day& day = open->day;
    open->recording.label = day.label;
    open->recording.time_zone = day.time_zone;
    open->recording.machines.resize(day.machines.size());
    begin_series(day, open->series);
    sim::ReplayHooks hooks;
    // Called before the first weight, too, where no row comes to a recorder.
    hooks.progress = [&](double share) {
        if (cancel.load(std::memory_order_relaxed)) throw LoadCancelled{};
        if (progress) progress(kReplayShare * share);
    };
    hooks.sink = [&](const sim::Machine&, std::size_t index) -> std::unique_ptr<sim::ReplaySink> {
        auto sinks = std::make_unique<sim::SinkGroup>();
        sinks->add(std::make_unique<SeriesRecorder>(open->series.machines[index], cancel));
        sinks->add(std::make_unique<SnapshotRecorder>(open->recording.machines[index]));
        return sinks;
    };
    try {
        open->result = sim::replay_day(day, hooks);
    } catch (const LoadCancelled&) {
        return nullptr;
    }
    if (!open->result.any_usable()) {
        throw sim::RefusedInput({open->folder.string(), 0,
                                 "holds no log that can be used: " + open->result.machines.front().refusal,
                                 "mend the logs named in day.toml"});
    }
    if (cancel.load(std::memory_order_relaxed)) return nullptr;
    end_series(open->result, open->series);
    keep_recording(open->result, open->recording);
    sim::analyse_day(day, open->result, true);
    open->map = make_map_model(day, open->result);
    open->result.map.reset();
    for (sim::MachineResult& machine : open->result.machines) drop_track(machine);
    if (cancel.load(std::memory_order_relaxed)) return nullptr;
    if (progress) progress(1.0);
    return open;
}

}  // namespace

std::unique_ptr<OpenDay> open_day(const std::filesystem::path& folder, const LoadProgress& progress,
                                  const std::atomic<bool>& cancel) {
    auto open = std::make_unique<OpenDay>();
    open->folder = folder;
    open->day = sim::read_day(folder);
    return replayed(std::move(open), progress, cancel);
}

std::unique_ptr<OpenDay> open_day(sim::Day day, const LoadProgress& progress,
                                  const std::atomic<bool>& cancel) {
    auto open = std::make_unique<OpenDay>();
    open->day = std::move(day);
    return replayed(std::move(open), progress, cancel);
}

}  // namespace podrate::ui
