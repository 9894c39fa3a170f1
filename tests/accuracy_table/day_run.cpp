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

namespace {

class CsvAndMore : public EstimatesCsv {
  public:
    CsvAndMore(const std::filesystem::path& out, const std::string& machine, ReplaySink* also)
        : EstimatesCsv(out, machine), also_(also) {}
    void on_row(const LogRow& row, const Estimate& estimate) override {
        EstimatesCsv::on_row(row, estimate);
        if (also_ != nullptr) also_->on_row(row, estimate);
    }

  private:
    ReplaySink* also_;
};

}  // namespace

DayRun::DayRun(const Scenario& scenario, const std::string& name)
    : folder_(std::filesystem::temp_directory_path() / ("podrate_accuracy_" + name)) {
    std::filesystem::remove_all(folder_);
    synthesise(scenario, folder_ / "day", nullptr);
}

DayRun::~DayRun() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

MachineScore DayRun::score(const std::function<void(Parameters&)>& tell, ReplaySink* also) const {
    Day day = read_day(folder_ / "day");
    if (tell) tell(day.machines.front().parameters);
    const std::filesystem::path out = folder_ / "out";
    make_folder(out);
    ReplayHooks hooks;
    hooks.sink = [&](const Machine& machine, std::size_t) -> std::unique_ptr<ReplaySink> {
        return std::make_unique<CsvAndMore>(out, machine.id, also);
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
