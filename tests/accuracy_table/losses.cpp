#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "accuracy_table/day_run.hpp"
#include "accuracy_table/speed_check.hpp"
#include "accuracy_table/table.hpp"
#include "log/number.hpp"
#include "log/units.hpp"

namespace podrate::accuracy {
namespace {

using namespace podrate::sim;

struct Variant {
    const char* name;
    std::size_t trays;
    bool sensor;
    bool even_speed;
    bool random_walk;  // the estimator's crop
    bool curve_told;
};

constexpr Variant kVariants[] = {
    {"weight and speed", 0, false, false, false, false},  {"speed held even", 0, false, true, false, false},
    {"six trays", 6, false, false, false, false},         {"six trays, sensor", 6, true, false, false, false},
    {"told the curve too", 6, true, false, false, true},   // what no knowledge of the loss could better
    {"crop a random walk", 0, false, false, true, false},  // the bad example
};

constexpr std::size_t kVariantCount = std::size(kVariants);

struct Outcome {
    LossScore loss;
    double drum_over_prior = 0.0;  // width of the drum's interval over the prior's, as ln
    double point_held_pct = 0.0;
    long seconds = 0;
    long advised = 0;
    long right = 0;
    long speed_held = 0;
};

// As near to a random walk as the parameters allow: the same growth of variance with distance, hardly a way
// back.
void take_for_random_walk(Parameters& p) {
    constexpr Real kFarM = Real(500);
    p.crop_cv *= static_cast<Real>(std::sqrt(static_cast<double>(kFarM / p.crop_length_m)));
    p.crop_length_m = kFarM;
}

// A machine's own prior: what its like have left on the ground over the years, here the picking losses that
// the scenario draws from, as the 90 % range of a log-normal.
void tell_kind(Parameters& p) {
    p.picking_loss_share = Real(0.043);
    p.picking_loss_low_share = Real(0.023);
    p.picking_loss_high_share = Real(0.075);
}

// Level, steepness, haulm and picking to a twentieth: what is left is the crop, the drum's mixing and the
// noise.
void tell_curve(const ScenarioDrum& drum, Parameters& p) {
    constexpr Real kNearly = Real(0.05);
    p.haulm_ratio = static_cast<Real>(drum.haulm_ratio);
    p.feed_steepness_kgps = static_cast<Real>(drum.feed_steepness_kgps);
    p.drum_loss_share = static_cast<Real>(drum.loss_share);
    p.drum_loss_ln_sd = kNearly;
    p.picking_loss_share = static_cast<Real>(drum.picking_loss_share);
    p.picking_loss_low_share = p.picking_loss_share * (Real(1) - kNearly);
    p.picking_loss_high_share = p.picking_loss_share * (Real(1) + kNearly);
}

Outcome run_one(const std::filesystem::path& file, std::uint64_t seed, std::size_t number, double hours) {
    const Variant& variant = kVariants[number];
    Scenario scenario = read_scenario(file, seed);
    if (hours > 0.0) scenario.hours = hours;
    ScenarioMachine& machine = scenario.machines.front();
    scenario.trays.resize(std::min(scenario.trays.size(), variant.trays));
    if (!variant.sensor) machine.hits.per_kg = 0.0;
    if (variant.even_speed) {
        machine.driver.speed_spread = 0.0;
        machine.driver.eases_off = 0.0;
        machine.driver.pauses_per_h = 0.0;
    }
    const DayRun run(scenario, "loss_" + std::to_string(number) + '_' + std::to_string(seed));
    const Day day = read_day(run.day());
    const Parameters told = day.machines.front().parameters;
    const TruePlant plant = read_true_plant(run.day(), machine.id, static_cast<double>(told.width_m));
    SpeedCheck speeds(plant, static_cast<double>(told.loss_limit_share));
    const MachineScore score = run.score(
        [&variant, &plant](Parameters& p) {
            tell_kind(p);
            if (variant.curve_told) tell_curve(plant.drum, p);
            if (variant.random_walk) take_for_random_walk(p);
        },
        &speeds);
    Outcome o;
    o.loss = score.loss;
    const double prior = 2.0 * kReach90 * static_cast<double>(told.drum_loss_ln_sd);
    o.drum_over_prior = std::log(o.loss.drum.high / o.loss.drum.low) / prior;
    o.point_held_pct = score.loss_coverage.pct(1);
    o.seconds = speeds.seconds;
    o.advised = speeds.advised;
    o.right = speeds.right;
    o.speed_held = speeds.held;
    return o;
}

double mean_of(const std::vector<Outcome>& all, double (*value)(const Outcome&)) {
    double sum = 0.0;
    for (const Outcome& o : all) sum += value(o);
    return sum / static_cast<double>(all.size());
}

double pct_of(const std::vector<Outcome>& all, long Outcome::*part, long Outcome::*whole) {
    long parts = 0;
    long wholes = 0;
    for (const Outcome& o : all) {
        parts += o.*part;
        wholes += o.*whole;
    }
    return wholes > 0 ? 100.0 * static_cast<double>(parts) / static_cast<double>(wholes) : 0.0;
}

LossAlarmScore alarms_of(const std::vector<Outcome>& all) {
    LossAlarmScore sum;
    for (const Outcome& o : all) sum.add(o.loss.alarms);
    return sum;
}

// One line of the table: a figure for each variant.
struct Line {
    const char* name;
    double (*value)(const std::vector<Outcome>&);
    int decimals;
};

constexpr Line kLines[] = {
    {"true mean loss, %",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return 100.0 * o.loss.total.true_share; });
     },
     2},
    {"  told, off by, points",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return 100.0 * std::abs(o.loss.total.error()); });
     },
     2},
    {"  too high by, points",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return 100.0 * o.loss.total.error(); });
     },
     2},
    {"  in its 90 % interval, %",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return o.loss.total.held() ? 100.0 : 0.0; });
     },
     0},
    {"of it in the drum, %",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return 100.0 * o.loss.drum.true_share; });
     },
     2},
    {"  told, off by, points",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return 100.0 * std::abs(o.loss.drum.error()); });
     },
     2},
    {"  in its 90 % interval, %",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return o.loss.drum.held() ? 100.0 : 0.0; });
     },
     0},
    {"  interval over the prior's",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return o.drum_over_prior; });
     },
     2},
    {"loss at each second, RMSE, points",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return 100.0 * o.loss.total.seconds.value(); });
     },
     2},
    {"  in its 90 % interval, %",
     [](const std::vector<Outcome>& a) {
         return mean_of(a, [](const Outcome& o) { return o.point_held_pct; });
     },
     1},
    {"a speed is advised, % of harvest",
     [](const std::vector<Outcome>& a) { return pct_of(a, &Outcome::advised, &Outcome::seconds); }, 0},
    {"  within 5 % of the right one, %",
     [](const std::vector<Outcome>& a) { return pct_of(a, &Outcome::right, &Outcome::advised); }, 0},
    {"  right one in its interval, %",
     [](const std::vector<Outcome>& a) { return pct_of(a, &Outcome::speed_held, &Outcome::advised); }, 0},
    {"loss too high for over 30 s, times",
     [](const std::vector<Outcome>& a) { return static_cast<double>(alarms_of(a).episodes); }, 0},
    {"  told by the alarm, times",
     [](const std::vector<Outcome>& a) { return static_cast<double>(alarms_of(a).told); }, 0},
    {"  after, s (median)",
     [](const std::vector<Outcome>& a) { return std::max(0.0, alarms_of(a).median_delay_s()); }, 0},
    {"  false alarms in 4 h of harvest",
     [](const std::vector<Outcome>& a) { return 4.0 * alarms_of(a).false_per_h(); }, 2},
    {"  chattering, times",
     [](const std::vector<Outcome>& a) { return static_cast<double>(alarms_of(a).chattered); }, 0},
};

}  // namespace

void print_losses(const std::filesystem::path& file, std::uint64_t seeds, double hours) {
    std::vector<std::vector<Outcome>> all(kVariantCount, std::vector<Outcome>(seeds));
    on_all_cores(kVariantCount * seeds, [&](std::size_t i) {
        all[i / seeds][i % seeds] = run_one(file, i % seeds + 1, i / seeds, hours);
    });
    std::printf("%s, %zu seeds\n  %-36s", read_scenario(file, 1).label.c_str(),
                static_cast<std::size_t>(seeds), "");
    for (const Variant& variant : kVariants) std::printf(" %18s", variant.name);
    std::printf("\n");
    for (const Line& line : kLines) {
        std::printf("  %-36s", line.name);
        for (const std::vector<Outcome>& of_variant : all)
            std::printf(" %18s", fixed(line.value(of_variant), line.decimals).c_str());
        std::printf("\n");
    }
}

}  // namespace podrate::accuracy
