#include <cmath>
#include <cstdio>
#include <vector>

#include "accuracy_table/day_run.hpp"
#include "accuracy_table/table.hpp"
#include "analysis/gang_loss.hpp"
#include "log/number.hpp"
#include "score/true_loss.hpp"

namespace podrate::accuracy {
namespace {

using namespace podrate::sim;

struct Way {
    double off = 0.0;  // sums over machines and seeds, shares
    double size = 0.0;
    int held = 0;
    void add(const Share& told, double truth) {
        const double error = static_cast<double>(told.share) - truth;
        off += error;
        size += std::abs(error);
        held += truth >= static_cast<double>(told.low) && truth <= static_cast<double>(told.high) ? 1 : 0;
    }
    void add(const Way& other) {
        off += other.off;
        size += other.size;
        held += other.held;
    }
};

struct Both {
    Way live;
    Way back;
    int machines = 0;
};

Both run_one(const std::filesystem::path& file, std::uint64_t seed, double hours) {
    Scenario scenario = read_scenario(file, seed);
    if (hours > 0.0) scenario.hours = hours;
    const DayRun run(scenario, "gang_" + std::to_string(seed));
    const Day day = read_day(run.day());
    const DayResult result = replay_day(day, {});
    const GangLoss gang = gang_loss(day, result);
    Both both;
    for (std::size_t m = 0; m < day.machines.size(); ++m) {
        const auto width_m = static_cast<double>(day.machines[m].parameters.width_m);
        const double truth = true_loss(read_true_plant(run.day(), day.machines[m].id, width_m)).mean_drum;
        both.live.add(result.machines[m].lost.shares.drum, truth);
        both.back.add(gang.machines[m].shares.drum, truth);
        ++both.machines;
    }
    return both;
}

}  // namespace

void print_gang_losses(const std::filesystem::path& file, std::uint64_t seeds, double hours) {
    std::vector<Both> all(seeds);
    on_all_cores(seeds, [&](std::size_t i) { all[i] = run_one(file, i + 1, hours); });
    Both sum;
    for (const Both& both : all) {
        sum.live.add(both.live);
        sum.back.add(both.back);
        sum.machines += both.machines;
    }
    const auto n = static_cast<double>(sum.machines);
    std::printf("%s, %zu seeds, loss in the drum from weight and speed alone\n  %-36s %18s %18s\n",
                read_scenario(file, 1).label.c_str(), static_cast<std::size_t>(seeds), "", "live",
                "looked back at");
    const auto line = [](const char* name, double live, double back, int decimals) {
        std::printf("  %-36s %18s %18s\n", name, fixed(live, decimals).c_str(),
                    fixed(back, decimals).c_str());
    };
    line("off by, points", 100.0 * sum.live.size / n, 100.0 * sum.back.size / n, 2);
    line("too high by, points", 100.0 * sum.live.off / n, 100.0 * sum.back.off / n, 2);
    line("in its 90 % interval, %", 100.0 * sum.live.held / n, 100.0 * sum.back.held / n, 0);
}

}  // namespace podrate::accuracy
