#include "accuracy_table/plan.hpp"

#include <cmath>
#include <cstdio>
#include <ctime>

#include "accuracy_table/day_run.hpp"
#include "accuracy_table/table.hpp"
#include "log/column_reader.hpp"
#include "log/number.hpp"
#include "plan/forecast.hpp"

namespace podrate::accuracy {
namespace {

using namespace podrate::sim;

// Tonnes of all loads, by the truth.
double true_tonnes(const std::filesystem::path& day) {
    ColumnReader loads(day / "truth" / "loads.csv", {"net_kg"});
    double kg = 0.0;
    while (loads.next()) kg += loads.number(0);
    return kg / 1e3;
}

double cpu_s() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

struct Held {
    int in90 = 0;
    int in50 = 0;
    int below90 = 0;
    double width_t = 0.0;
    double error_t = 0.0;
    double square_t2 = 0.0;
    double brier = 0.0;
    double rest_t = 0.0;
};

Held held_by(const std::vector<std::vector<ForecastScore>>& days, std::size_t moment) {
    Held held;
    for (const std::vector<ForecastScore>& day : days) {
        const ForecastScore& f = day[moment];
        held.in90 += f.true_t >= f.low90_t && f.true_t <= f.high90_t ? 1 : 0;
        held.in50 += f.true_t >= f.low50_t && f.true_t <= f.high50_t ? 1 : 0;
        held.below90 += f.true_t < f.low90_t ? 1 : 0;
        held.width_t += f.high90_t - f.low90_t;
        const double error_t = f.median_t - f.true_t;
        held.error_t += error_t;
        held.square_t2 += error_t * error_t;
        const double met = f.true_t >= f.planned_t ? 1.0 : 0.0;
        held.brier += (f.chance - met) * (f.chance - met);
        held.rest_t += f.true_t - f.delivered_t;
    }
    return held;
}

}  // namespace

std::vector<ForecastScore> score_forecasts(const std::filesystem::path& folder) {
    const Day day = read_day(folder);
    const DayResult result = replay_day(day, {});
    std::vector<ForecastScore> scores;
    for (const double share : kForecastShares) {
        const auto now_us =
            result.first_us +
            static_cast<TimeUs>(share * static_cast<double>(result.last_us - result.first_us));
        const double begun_s = cpu_s();
        const std::optional<Forecast> f = forecast_of(day, result, now_us);
        if (!f) continue;
        const Quantiles& q = f->cases.front().delivered_t.back();
        scores.push_back({share, q.low90, q.low50, q.median, q.high50, q.high90, f->cases.front().chance,
                          f->delivered_t, true_tonnes(folder), f->planned_end_t, cpu_s() - begun_s});
    }
    return scores;
}

bool print_plan(const std::filesystem::path& file, std::uint64_t seeds, double hours) {
    std::vector<std::vector<ForecastScore>> days(seeds);
    on_all_cores(seeds, [&](std::size_t i) {
        Scenario scenario = read_scenario(file, i + 1);
        if (hours > 0.0) scenario.hours = hours;
        const DayRun run(scenario, "plan_" + std::to_string(i + 1));
        days[i] = score_forecasts(run.day());
    });
    std::printf("%s: tonnes delivered by the day's end, %s days\n  %-34s", file.stem().c_str(),
                std::to_string(seeds).c_str(), "forecast made after");
    for (const double share : kForecastShares) std::printf(" %7s %%", fixed(100.0 * share, 0).c_str());
    const auto n = static_cast<double>(seeds);
    const auto line = [&](const char* name, int decimals, auto value) {
        std::printf("\n  %-34s", name);
        for (std::size_t moment = 0; moment < std::size(kForecastShares); ++moment)
            std::printf(" %9s", fixed(value(held_by(days, moment)), decimals).c_str());
    };
    line("truth in the 90 % interval, %", 0, [n](const Held& h) { return 100.0 * h.in90 / n; });
    line("truth in the 50 % interval, %", 0, [n](const Held& h) { return 100.0 * h.in50 / n; });
    line("truth below the 90 % interval, %", 0, [n](const Held& h) { return 100.0 * h.below90 / n; });
    line("90 % interval's width, t", 1, [n](const Held& h) { return h.width_t / n; });
    line("median less truth, mean, t", 2, [n](const Held& h) { return h.error_t / n; });
    line("median less truth, RMS, t", 1, [n](const Held& h) { return std::sqrt(h.square_t2 / n); });
    line("still to come, mean, t", 1, [n](const Held& h) { return h.rest_t / n; });
    line("Brier score of meeting the plan", 3, [n](const Held& h) { return h.brier / n; });
    std::printf("\n");
    bool good = true;
    // A share of few days wanders: three standard errors of a binomial share.
    const double slack = seeds >= 100 ? 0.0 : 3.0 * std::sqrt(0.09 / n);
    for (std::size_t moment = 0; moment < std::size(kForecastShares); ++moment) {
        const double share = held_by(days, moment).in90 / n;
        good = good && share >= 0.85 - slack && share <= 0.95 + slack;
    }
    return good;
}

}  // namespace podrate::accuracy
