#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string_view>
#include <vector>

#include "accuracy_table/day_run.hpp"
#include "accuracy_table/table.hpp"
#include "log/number.hpp"
#include "score/true_model.hpp"

namespace podrate::accuracy {
namespace {

using namespace podrate::sim;

constexpr double kTphPerKgps = 3.6;
enum Level : std::size_t { kFifty, kNinety, kNinetyFive };  // of Coverage::kLevels_pct

struct Row {
    MachineScore score;
    double over_told = 0.0;  // over the same filter told drum, losses and crop, nothing left to learn
};

// Variance of a metre of swath that the patches bring.
double patch_m(const ScenarioField& field, double width_m) {
    const auto patches = TrueModel::across_swath(field.patch_cv, field.patch_length_m, width_m);
    return 2.0 * patches.variance * patches.length_m;
}

void tell_all(const Scenario& scenario, Parameters& p) {
    const ScenarioMachine& m = scenario.machines.front();
    const ScenarioField& f = scenario.fields.front();
    p.drum_dead_time_s = static_cast<Real>(m.drum.dead_time_s);
    p.drum_lag_s = static_cast<Real>(m.drum.lag_s);
    p.drum_loss_share = static_cast<Real>(m.drum.loss_share);
    p.haulm_ratio = static_cast<Real>(m.drum.haulm_ratio);
    p.crop_kgpm2 = static_cast<Real>(f.crop_kgpm2);
    p.crop_cv = static_cast<Real>(f.crop_cv);
    p.crop_patch_m = static_cast<Real>(patch_m(f, m.width_m));
    p.crop_length_m = static_cast<Real>(f.crop_length_m);
    p.weight_noise_moving_kg = static_cast<Real>(m.scale.noise_moving_kg);
    p.weight_noise_still_kg = static_cast<Real>(m.scale.noise_still_kg);
    p.drum_dead_time_sd_s = Real(0);
    p.drum_lag_ln_sd = Real(0);
    p.crop_cv_ln_reach = Real(0);
}

Row run_seed(const std::filesystem::path& file, std::uint64_t seed, double hours) {
    Scenario scenario = read_scenario(file, seed);
    if (hours > 0.0) scenario.hours = hours;
    const DayRun run(scenario, file.stem().string() + '_' + std::to_string(seed));
    Row row;
    row.score = run.score();
    const MachineScore told = run.score([&](Parameters& p) { tell_all(scenario, p); });
    row.over_told = row.score.flow.value() / told.flow.value();
    return row;
}

// What is aimed at, as a mean over the seeds: within these bounds.
struct Column {
    const char* name;
    double (*value)(const Row&);
    int decimals;
    double low;
    double high;
};

constexpr Column kColumns[] = {
    {"flow RMSE, t/h", [](const Row& r) { return r.score.flow.value() * kTphPerKgps; }, 3, 0.0, 1.0},
    {"flow bias, t/h", [](const Row& r) { return r.score.bias_kgps() * kTphPerKgps; }, 4, -0.02, 0.02},
    {"over the bound", [](const Row& r) { return r.score.over_bound(); }, 3, 0.0, 1.10},
    {"over the filter told all", [](const Row& r) { return r.over_told; }, 3, 0.0, 1.20},
    {"over the smoother told all", [](const Row& r) { return r.score.over_smoother(); }, 3, 0.0, 3.0},
    {"over the best differencing", [](const Row& r) { return r.score.best_ratio(); }, 3, 0.0, 0.6},
    {"flow in its 50 % interval, %", [](const Row& r) { return r.score.flow_coverage.pct(kFifty); }, 1, 45,
     57},
    {"flow in its 90 % interval, %", [](const Row& r) { return r.score.flow_coverage.pct(kNinety); }, 1, 88,
     92},
    {"flow in its 95 % interval, %", [](const Row& r) { return r.score.flow_coverage.pct(kNinetyFive); }, 1,
     93, 97},
    {"mass in its 90 % interval, %", [](const Row& r) { return r.score.mass_coverage.pct(kNinety); }, 1, 88,
     92},
    {"yield in its 90 % interval, %", [](const Row& r) { return r.score.yield_coverage.pct(kNinety); }, 1, 88,
     92},
    {"total, error %", [](const Row& r) { return 100.0 * r.score.harvested_error_share(); }, 3, -0.3, 0.3},
    {"loads within 0.5 %, %", [](const Row& r) { return 100.0 * r.score.loads_within(0.005); }, 1, 95.0,
     100.0},
    {"states right, %", [](const Row& r) { return 100.0 * r.score.state_share(); }, 2, 98.0, 100.0},
};

// Few short days say little of how often an interval holds: there a share may be off by so much more.
double slack_of(const Column& column, double hours_in_all) {
    const bool coverage = std::string_view(column.name).find("interval") != std::string_view::npos;
    return coverage && hours_in_all < 200.0 ? 5.0 : 0.0;
}

// The bound knows of white noise only, so under a shaking drum it is no aim.
bool aimed_at(const Column& column, bool white) {
    return white || column.name != kColumns[2].name;
}

}  // namespace

bool print_seeds(const std::filesystem::path& file, std::uint64_t seeds, double hours) {
    const Scenario first = read_scenario(file, 1);
    const bool white = first.machines.front().scale.tone_kg <= 0.0;
    std::vector<Row> rows(seeds);
    on_all_cores(seeds, [&](std::size_t i) { rows[i] = run_seed(file, i + 1, hours); });
    const double day_hours = hours > 0.0 ? hours : first.hours;
    std::printf("%s, %zu seeds of %s h\n  %-30s %10s %10s %10s\n", first.label.c_str(), rows.size(),
                fixed(day_hours, 0).c_str(), "", "mean", "least", "most");
    bool good = true;
    for (const Column& column : kColumns) {
        double sum = 0.0;
        double least = column.value(rows.front());
        double most = least;
        for (const Row& row : rows) {
            const double value = column.value(row);
            sum += value;
            least = std::min(least, value);
            most = std::max(most, value);
        }
        const double mean = sum / static_cast<double>(rows.size());
        const double slack = slack_of(column, day_hours * static_cast<double>(seeds));
        const bool held =
            !aimed_at(column, white) || (mean >= column.low - slack && mean <= column.high + slack);
        good = good && held;
        std::printf("  %-30s %10s %10s %10s%s\n", column.name, fixed(mean, column.decimals).c_str(),
                    fixed(least, column.decimals).c_str(), fixed(most, column.decimals).c_str(),
                    held ? "" : "   missed");
    }
    return good;
}

}  // namespace podrate::accuracy
