#include "report/plan_json.hpp"

#include <nlohmann/json.hpp>

#include "log/number.hpp"
#include "plan/gang_books.hpp"
#include "plan/trailer_waits.hpp"
#include "report/forecast_csv.hpp"

namespace podrate::sim {
namespace {

using PlanJson = nlohmann::ordered_json;

// Through its decimal text, so that the file shows "5.43" and not "5.4300000000000006".
double to_places(double value, int decimals) {
    return parse_number(fixed(value, decimals)).value;
}

double whole_s(TimeUs time_us) {
    return to_places(static_cast<double>(time_us) / 1e6, 0);
}

PlanJson case_json(const PlanCase& c) {
    static constexpr const char* kVerdicts[] = {"slower_will_do", "faster", "out_of_reach"};
    const Quantiles& q = c.delivered_t.back();
    const bool reached = c.need.verdict != SpeedNeed::Verdict::out_of_reach;
    const auto known = [reached](double value, int decimals) {
        return reached ? PlanJson(to_places(value, decimals)) : PlanJson(nullptr);
    };
    return {{"case", case_name(c)},
            {"delivered_t_median", to_places(q.median, 3)},
            {"delivered_t_low", to_places(q.low90, 3)},
            {"delivered_t_high", to_places(q.high90, 3)},
            {"chance", to_places(c.chance, 4)},
            {"speed", kVerdicts[static_cast<std::size_t>(c.need.verdict)]},
            {"speed_factor", known(c.need.factor, 3)},
            {"speed_limit_factor", to_places(c.need.limit, 3)},
            {"more_lost_points", known(c.need.more_lost_points, 3)},
            {"more_lost_points_low", known(c.need.more_lost_low, 3)},
            {"more_lost_points_high", known(c.need.more_lost_high, 3)},
            {"more_lost_t", known(c.need.more_lost_t, 3)}};
}

PlanJson back_json(const BackBy& back) {
    static constexpr const char* kVerdicts[] = {"by", "too_late", "not_needed"};
    const bool by = back.verdict == BackBy::Verdict::by;
    return {{"verdict", kVerdicts[static_cast<std::size_t>(back.verdict)]},
            {"unix_s", by ? PlanJson(whole_s(back.time_us)) : PlanJson(nullptr)}};
}

PlanJson forecast_json(const Forecast& f) {
    PlanJson cases = PlanJson::array();
    for (const PlanCase& c : f.cases) cases.push_back(case_json(c));
    PlanJson back = PlanJson::array();
    for (const MachineBack& b : f.back) {
        back.push_back({{"machine", b.machine},
                        {"stopped_now", b.stopped_now},
                        {"even_chance", back_json(b.even)},
                        {"nine_in_ten", back_json(b.nine_in_ten)}});
    }
    return {{"seed", to_places(f.seed, 0)},
            {"paths", f.paths},
            {"repair_min", f.repair_min},
            {"end_unix_s", whole_s(f.end_us)},
            {"planned_end_t", to_places(f.planned_end_t, 3)},
            {"pace_tph", to_places(f.pace_tph, 3)},
            {"needed_tph", to_places(f.needed_tph, 3)},
            {"cases", cases},
            {"back", back}};
}

PlanJson waits_json(const DayResult& result) {
    PlanJson waits = PlanJson::array();
    for (const TrailerWaits& w : trailer_waits(result)) {
        waits.push_back({{"machine", w.machine},
                         {"tips", w.tips},
                         {"waited_s", to_places(w.waited_s, 1)},
                         {"longest_s", to_places(w.longest_s, 1)},
                         {"cycle_s", to_places(w.cycle_s, 1)},
                         {"forgone_t", to_places(w.forgone_kg / 1e3, 4)}});
    }
    return waits;
}

}  // namespace

nlohmann::ordered_json plan_json(const Day& day, const DayResult& result) {
    if (day.intake_plan.empty()) return nullptr;
    const TimeUs now_us = end_of_books_us(result);
    const GangBooks books = books_until(result, now_us);
    const double now_s = static_cast<double>(now_us) / 1e6;
    return {{"now_unix_s", whole_s(now_us)},
            {"delivered_t", to_places(books.delivered_t(), 3)},
            {"in_hoppers_t", to_places(books.in_hoppers_t(), 3)},
            {"planned_t", to_places(planned_t_at(day.intake_plan, now_s).value_or(0.0), 3)},
            {"forecast", result.forecast ? forecast_json(*result.forecast) : PlanJson(nullptr)},
            {"trailer_waits", waits_json(result)}};
}

}  // namespace podrate::sim
