#include "rerun/rerun.hpp"

#include <algorithm>
#include <exception>
#include <filesystem>
#include <utility>

#include "model/light_result.hpp"
#include "series/load_series.hpp"
#include "series/series_recorder.hpp"

namespace podrate::ui {
namespace {

constexpr double kWorthTelling = 0.02;

// Nothing but that machine, counted from the day's origin.
MachineSeries counted_from(TimeUs origin_us, MachineSeries machine, sim::MachineResult& result) {
    DaySeries day;
    day.origin_us = origin_us;
    day.machines.push_back(std::move(machine));
    sim::DayResult of_day;
    of_day.machines.push_back(std::move(result));
    end_series(of_day, day);
    result = std::move(of_day.machines.front());
    return std::move(day.machines.front());
}

}  // namespace

bool same_but_for_alarms(const Parameters& a, const Parameters& b) {
    for (const ParameterInfo& info : kParameterTable) {
        if (a.*info.member != b.*info.member && !sim::touches_alarms_alone(info)) return false;
    }
    return true;
}

std::shared_ptr<const RerunResult> with_alarms(const RerunResult& run, const Parameters& parameters) {
    auto judged = std::make_shared<RerunResult>(run);
    judged->machine.parameters = parameters;
    judged->machine.alarms = sim::alarms_of(*run.trace, parameters);
    return judged;
}

std::uint32_t Rerun::ask(sim::Machine machine, TimeUs origin_us) {
    std::stable_sort(machine.trays.begin(), machine.trays.end(),
                     [](const sim::TrayCheck& a, const sim::TrayCheck& b) { return a.unix_s < b.unix_s; });
    share_ = 0.0;
    const Asked asked{++number_, std::move(machine), origin_us};
    aside_.ask([this, asked](const std::atomic<bool>& cancel) { return run(asked, cancel); });
    return number_;
}

std::shared_ptr<const RerunResult> Rerun::run(const Asked& asked, const std::atomic<bool>& cancel) {
    share_ = 0.0;
    auto result = std::make_shared<RerunResult>();
    result->number = asked.number;
    std::error_code unknown;
    const auto size = static_cast<double>(std::filesystem::file_size(asked.machine.log, unknown));
    try {
        MachineSeries series;
        auto trace = std::make_shared<sim::AlarmTrace>();
        SeriesRecorder recorder(series, cancel);
        result->machine =
            sim::replay_machine(asked.machine, {&recorder, trace.get()}, [&](std::uint64_t bytes) {
                if (cancel.load(std::memory_order_relaxed)) throw LoadCancelled{};
                if (!unknown && size > 0.0) tell(static_cast<double>(bytes) / size);
            });
        result->series = std::make_shared<MachineSeries>(
            counted_from(asked.origin_us, std::move(series), result->machine));
        result->times = std::make_shared<sim::TraceTimes>(sim::times_of(*trace));
        result->trace = std::move(trace);
        drop_track(result->machine);
    } catch (const LoadCancelled&) {
        return nullptr;
    } catch (const std::exception& error) {
        *result = {};
        result->number = asked.number;
        auto bare = std::make_shared<MachineSeries>();
        result->machine.id = bare->id = asked.machine.id;
        result->machine.parameters = asked.machine.parameters;
        result->machine.refusal = bare->refusal = error.what();
        result->series = std::move(bare);
    }
    return result;
}

void Rerun::tell(double share) {
    if (share - share_.load(std::memory_order_relaxed) < kWorthTelling) return;
    share_ = share;
    if (wake_) wake_();
}

}  // namespace podrate::ui
