#include "plan/forecast.hpp"

#include <algorithm>
#include <cmath>

#include "plan/gang_books.hpp"
#include "plan/gang_paths.hpp"

namespace podrate::sim {
namespace {

constexpr double kGridStepS = 900.0;
constexpr double kMostSteps = 48.0;
constexpr TimeUs kMostAheadUs = 3 * 86400 * kSecondUs;    // further ahead nothing is known
constexpr TimeUs kMostBehindUs = 31 * 86400 * kSecondUs;  // a log of more can't be right
constexpr TimeUs kPaceOverUs = 3600 * kSecondUs;

PathGrid grid_for(double for_s) {
    const double steps = std::clamp(std::ceil(for_s / kGridStepS), 1.0, kMostSteps);
    return {for_s / steps, static_cast<std::size_t>(steps)};
}

double pace_tph(const GangBooks& books) {
    double tph = 0.0;
    for (const MachineBooks& m : books.machines) {
        const TimeUs begun_us = m.minutes.front().minute * 60 * kSecondUs;
        const TimeUs from_us = std::max(begun_us, books.now_us - kPaceOverUs);
        const double hours = static_cast<double>(books.now_us - from_us) / 3.6e9;
        const double before_kg = delivered_kg_by(m.minutes, from_us) + hopper_kg_at(m.minutes, from_us);
        if (hours > 0.0) tph += (m.delivered_kg + m.hopper_kg - before_kg) / 1e3 / hours;
    }
    return tph;
}

}  // namespace

std::optional<Forecast> forecast_of(const Day& day, const DayResult& result, TimeUs now_us) {
    if (day.intake_plan.empty()) return std::nullopt;
    const GangBooks books = books_until(result, now_us);
    const auto end_us = static_cast<TimeUs>(day.intake_plan.back().unix_s) * kSecondUs;
    if (books.machines.empty() || end_us <= books.now_us + 60 * kSecondUs) return std::nullopt;
    if (end_us - books.now_us > kMostAheadUs || books.now_us - result.first_us > kMostBehindUs)
        return std::nullopt;
    Forecast f;
    f.now_us = books.now_us;
    f.end_us = end_us;
    const double for_s = static_cast<double>(end_us - books.now_us) / 1e6;
    f.grid = grid_for(for_s);
    f.delivered_t = books.delivered_t();
    f.in_hoppers_t = books.in_hoppers_t();
    f.planned_now_t = planned_t_at(day.intake_plan, static_cast<double>(f.now_us) / 1e6).value_or(0.0);
    f.planned_end_t = day.intake_plan.back().planned_t;
    f.pace_tph = pace_tph(books);
    f.needed_tph = std::max(0.0, f.planned_end_t - f.delivered_t) / (for_s / 3600.0);
    f.seed = day.forecast.seed;
    f.paths = static_cast<std::size_t>(day.forecast.paths);
    f.repair_min = day.forecast.repair_min;
    GangPaths(books, result, day.forecast, f.grid).tell(f);
    return f;
}

}  // namespace podrate::sim
