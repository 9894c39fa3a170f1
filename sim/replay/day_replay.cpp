#include "replay/day_replay.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <thread>

#include "replay/pacer.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kMostThreads = 16;

// Adds up the bytes that several threads have read.
class ProgressMeter {
  public:
    ProgressMeter(const Day& day, std::function<void(double)> report)
        : report_(std::move(report)), done_(day.machines.size(), 0) {
        for (const Machine& machine : day.machines) {
            std::error_code missing;
            const auto size = std::filesystem::file_size(machine.log, missing);
            sizes_.push_back(missing ? 0 : size);
            total_ += sizes_.back();
        }
    }
    [[nodiscard]] double share(std::size_t machine, std::uint64_t bytes) const {
        return sizes_[machine] > 0 ? static_cast<double>(bytes) / static_cast<double>(sizes_[machine]) : 1.0;
    }
    void set(std::size_t machine, std::uint64_t bytes) {
        if (!report_ || total_ == 0) return;
        const std::lock_guard<std::mutex> lock(mutex_);
        done_[machine] = bytes;
        std::uint64_t sum = 0;
        for (const std::uint64_t part : done_) sum += part;
        report_(static_cast<double>(sum) / static_cast<double>(total_));
    }

  private:
    std::function<void(double)> report_;
    std::mutex mutex_;
    std::vector<std::uint64_t> sizes_;
    std::vector<std::uint64_t> done_;
    std::uint64_t total_ = 0;
};

// Also where an exception ends it: nobody waits for it then.
class RunningPart {
  public:
    RunningPart(Pacer& pacer, std::size_t who) : pacer_(pacer), who_(who) { pacer_.begin(who_); }
    ~RunningPart() { pacer_.end(who_); }
    RunningPart(const RunningPart&) = delete;
    RunningPart& operator=(const RunningPart&) = delete;

  private:
    Pacer& pacer_;
    std::size_t who_;
};

void add_up(const Day& day, DayResult& result) {
    double harvested_kg = 0.0;
    double variance_kg2 = 0.0;
    double area_m2 = 0.0;
    for (const MachineResult& machine : result.machines) {
        if (!machine.usable) continue;
        const auto sd_kg = static_cast<double>(machine.last.harvested_sd_kg);
        harvested_kg += static_cast<double>(machine.last.harvested_kg);
        variance_kg2 += sd_kg * sd_kg;
        area_m2 += static_cast<double>(machine.last.area_m2);
        if (result.first_us == 0 || machine.first_us < result.first_us) result.first_us = machine.first_us;
        result.last_us = std::max(result.last_us, machine.last_us);
    }
    result.harvested_t = harvested_kg / 1e3;
    result.harvested_sd_t = std::sqrt(variance_kg2) / 1e3;
    result.area_ha = area_m2 / 1e4;
    result.yield_tpha = tonnes_per_hectare(harvested_kg, area_m2);
    result.planned_t = planned_t_at(day.intake_plan, static_cast<double>(result.last_us) / 1e6);
}

}  // namespace

bool DayResult::any_usable() const {
    return std::any_of(machines.begin(), machines.end(), [](const MachineResult& m) { return m.usable; });
}

bool DayResult::all_used(const Day& day) const {
    const auto whole = [](const MachineResult& m) { return m.usable && m.problems.faults() == 0; };
    return day.problems.faults() == 0 && std::all_of(machines.begin(), machines.end(), whole);
}

std::optional<double> planned_t_at(const std::vector<PlanPoint>& plan, double unix_s) {
    if (plan.empty()) return std::nullopt;
    if (unix_s < plan.front().unix_s) return 0.0;
    for (std::size_t i = 1; i < plan.size(); ++i) {
        if (unix_s > plan[i].unix_s) continue;
        const double span_s = plan[i].unix_s - plan[i - 1].unix_s;
        const double along = span_s > 0.0 ? (unix_s - plan[i - 1].unix_s) / span_s : 1.0;
        return plan[i - 1].planned_t + along * (plan[i].planned_t - plan[i - 1].planned_t);
    }
    return plan.back().planned_t;
}

DayResult replay_day(const Day& day, const ReplayHooks& hooks) {
    DayResult result;
    result.machines.resize(day.machines.size());
    ProgressMeter meter(day, hooks.progress);
    Pacer pacer(day.machines.size());
    std::atomic<std::size_t> next{0};
    std::mutex failure_mutex;
    std::exception_ptr failure;
    const auto replay_in_turn = [&] {
        for (std::size_t i = next++; i < day.machines.size(); i = next++) {
            const std::unique_ptr<ReplaySink> sink = hooks.sink ? hooks.sink(day.machines[i], i) : nullptr;
            std::vector<ReplaySink*> extra;
            if (sink) extra.push_back(sink.get());
            const RunningPart running(pacer, i);
            result.machines[i] = replay_machine(day.machines[i], extra, [&, i](std::uint64_t bytes) {
                meter.set(i, bytes);
                pacer.reached(i, meter.share(i, bytes));
            });
        }
    };
    const auto work = [&] {
        try {
            replay_in_turn();
        } catch (...) {
            const std::lock_guard<std::mutex> lock(failure_mutex);
            if (!failure) failure = std::current_exception();
        }
    };
    // A thread for each machine even on fewer cores: three side by side on two cores end together, where the
    // third would else run alone after the others.
    const std::size_t helpers = std::min(kMostThreads, day.machines.size());
    std::vector<std::thread> threads;
    for (std::size_t i = 1; i < helpers; ++i) threads.emplace_back(work);
    work();
    for (std::thread& thread : threads) thread.join();
    if (failure) std::rethrow_exception(failure);
    add_up(day, result);
    return result;
}

}  // namespace podrate::sim
