#include "accuracy_table/day_run.hpp"

#include <atomic>
#include <memory>
#include <thread>
#include <vector>

#include "replay/day_replay.hpp"
#include "report/estimates_csv.hpp"
#include "report/loads_csv.hpp"
#include "report/output_file.hpp"
#include "report/summary_json.hpp"
#include "synth/synthesis.hpp"

namespace podrate::accuracy {

using namespace podrate::sim;

DayRun::DayRun(const Scenario& scenario, const std::string& name)
    : folder_(std::filesystem::temp_directory_path() / ("podrate_accuracy_" + name)) {
    std::filesystem::remove_all(folder_);
    synthesise(scenario, folder_ / "day", nullptr);
}

DayRun::~DayRun() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

MachineScore DayRun::score(const std::function<void(Parameters&)>& tell) const {
    Day day = read_day(folder_ / "day");
    if (tell) tell(day.machines.front().parameters);
    const std::filesystem::path out = folder_ / "out";
    make_folder(out);
    ReplayHooks hooks;
    hooks.sink = [&out](const Machine& machine, std::size_t) -> std::unique_ptr<ReplaySink> {
        return std::make_unique<EstimatesCsv>(out, machine.id);
    };
    const DayResult result = replay_day(day, hooks);
    stated_sd_kg_ = static_cast<double>(result.machines.front().last.harvested_sd_kg);
    write_file(out / "summary.json", summary_json(day, result));
    write_file(out / "loads.csv", loads_csv(result));
    return score_day(out, folder_ / "day").machines.front();
}

void on_all_cores(std::size_t count, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next{0};
    const auto run = [&] {
        for (std::size_t i = next++; i < count; i = next++) work(i);
    };
    std::vector<std::thread> threads;
    for (unsigned i = 1; i < std::thread::hardware_concurrency(); ++i) threads.emplace_back(run);
    run();
    for (std::thread& thread : threads) thread.join();
}

}  // namespace podrate::accuracy
