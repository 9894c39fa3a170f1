#include "report/plan_words.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "plan/gang_books.hpp"
#include "report/html/clock_cell.hpp"

namespace podrate::sim {
namespace {

constexpr double kSlowestTried = 0.7;

std::string standing(const Day& day, const DayResult& result) {
    const TimeUs now_us = end_of_books_us(result);
    const GangBooks books = books_until(result, now_us);
    const double planned_t = planned_t_at(day.intake_plan, static_cast<double>(now_us) / 1e6).value_or(0.0);
    const double ahead_t = books.delivered_t() - planned_t;
    return "By " + clock_cell(now_us, day, result) + ", " + fixed(books.delivered_t(), 1) +
           " t had been delivered (tipped into trailers; the road to the factory is not counted) and " +
           fixed(books.in_hoppers_t(), 1) + " t were in the hoppers; the plan says " + fixed(planned_t, 1) +
           " t: " + fixed(std::abs(ahead_t), 1) + (ahead_t < 0.0 ? " t behind." : " t ahead.");
}

std::string outlook(const Forecast& f, const Day& day, const DayResult& result) {
    const Quantiles& q = f.cases.front().delivered_t.back();
    return "As it goes, " + fixed(q.median, 0) + " t by " + clock_cell(f.end_us, day, result) +
           ", 9 times in 10 between " + fixed(q.low90, 0) + " and " + fixed(q.high90, 0) + " t; the plan's " +
           fixed(f.planned_end_t, 0) + " t are met with a chance of " + chance_words(f.cases.front().chance) +
           ".";
}

std::string speed_sentence(const Forecast& f) {
    const SpeedNeed& need = f.cases.front().need;
    if (need.verdict == SpeedNeed::Verdict::out_of_reach)
        return "Speed cannot make up what is missing: not even at the drums' rated feed or the machines' "
               "fastest "
               "speed, in the mean " +
               fixed(std::max(0.0, 100.0 * (need.limit - 1.0)), 0) +
               " % faster than they did, would the plan have an even chance.";
    if (need.verdict == SpeedNeed::Verdict::slower_will_do)
        return "An even chance of the plan does not ask for more speed (" + speed_words(need) + " would do).";
    return "For an even chance of the plan the machines would have to harvest about " + speed_words(need) +
           " than they did, where crop, ground and the operator's manual allow it; that would cost about " +
           fixed(need.more_lost_points, 1) + " points of loss more (" + fixed(need.more_lost_low, 1) +
           " to " + fixed(need.more_lost_high, 1) + "), " + fixed(need.more_lost_t, 1) +
           " t on the ground. Whether that is worth it people decide.";
}

}  // namespace

std::string chance_words(double chance) {
    if (chance < 0.01) return "below 1 %";
    if (chance > 0.99) return "above 99 %";
    return fixed(100.0 * chance, 0) + " %";
}

std::string speed_words(const SpeedNeed& need) {
    if (need.verdict == SpeedNeed::Verdict::out_of_reach) {
        const double limit_pct = std::round(100.0 * (need.limit - 1.0));
        return limit_pct < 1.0 ? "out of reach: at their limit now"
                               : "out of reach: limit " + fixed(limit_pct, 0) + " % faster";
    }
    const double pct = std::round(100.0 * std::abs(need.factor - 1.0));
    if (pct < 1.0) return "as now";
    if (need.factor <= kSlowestTried) return "30 % slower or more";
    return fixed(pct, 0) + (need.factor > 1.0 ? " % faster" : " % slower");
}

std::string back_words(const BackBy& back, const Day& day, const DayResult& result) {
    switch (back.verdict) {
        case BackBy::Verdict::by: return "by " + clock_cell(back.time_us, day, result);
        case BackBy::Verdict::too_late: return "out of reach even at once";
        case BackBy::Verdict::not_needed: break;
    }
    return "not needed";
}

std::vector<std::string> plan_sentences(const Day& day, const DayResult& result) {
    if (day.intake_plan.empty()) return {};
    std::vector<std::string> sentences = {standing(day, result)};
    if (!result.forecast) return sentences;
    const Forecast& f = *result.forecast;
    sentences.push_back("Over the last hour " + fixed(f.pace_tph, 1) +
                        " t/h came into the hoppers; the plan needs " + fixed(f.needed_tph, 1) +
                        " t/h from now to " + clock_cell(f.end_us, day, result) + ".");
    sentences.push_back(outlook(f, day, result));
    sentences.push_back(speed_sentence(f));
    for (const MachineBack& b : f.back) {
        if (!b.stopped_now) continue;
        sentences.push_back(b.machine + " stands. Back at work for an even chance of the plan: " +
                            back_words(b.even, day, result) +
                            "; for nine chances in ten: " + back_words(b.nine_in_ten, day, result) + ".");
    }
    return sentences;
}

std::string keep_to_plan_line(const Day& day, const DayResult& result) {
    if (!result.forecast) return {};
    const Forecast& f = *result.forecast;
    const Quantiles& q = f.cases.front().delivered_t.back();
    std::string line = "To keep to the plan: " + fixed(f.needed_tph, 1) + " t/h to " +
                       clock_cell(f.end_us, day, result) + "; last hour " + fixed(f.pace_tph, 1) +
                       " t/h. Expected " + fixed(q.median, 0) + " t (" + fixed(q.low90, 0) + " to " +
                       fixed(q.high90, 0) + ") of " + fixed(f.planned_end_t, 0) + " t, chance " +
                       chance_words(f.cases.front().chance) +
                       "; speed for an even chance: " + speed_words(f.cases.front().need) + ".";
    for (const MachineBack& b : f.back) {
        if (b.stopped_now) line += " " + b.machine + " back: " + back_words(b.even, day, result) + ".";
    }
    return line;
}

}  // namespace podrate::sim
