#include "report/html/moving_on_html.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "maturity/moving_on.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kMinus = "\u2212";
constexpr const char* kOrLess = "\u00A0±\u00A0";

std::string signed_t(const ChangeT& change) {
    return (change.mean < 0.0 ? kMinus : "+") + fixed(std::abs(change.mean), 2) + kOrLess +
           fixed(change.reach90, 2);
}

std::string points_text(const Believed& b) {
    return fixed(b.middle, 0) + " (" + fixed(b.low, 0) + " to " + fixed(b.high, 0) + ")";
}

std::string chance_text(const FieldMaturity& m, double chance) {
    return m.window ? fixed(100.0 * chance, 0) : "no target";
}

std::string left_table(const MovingOn& all) {
    std::vector<std::vector<std::string>> rows;
    for (const FieldLeft& f : all.fields) {
        const FieldMaturity& m = *f.maturity;
        rows.push_back({m.field, fixed(f.left_ha, 2), fixed(f.work_h, 1), points_text(m.now),
                        chance_text(m, m.in_window_now), points_text(f.in_a_day),
                        chance_text(m, f.in_window_in_a_day), signed_t(f.by_a_day)});
    }
    return table_html({"field", "left, ha", "the gang's work, h", "now, points", "in the window, %",
                       "24 h on, points", "in the window, %", "peas by 24 h of standing, t"},
                      rows);
}

std::string choice_table(const MoveChoice& c, const MovingOn& all) {
    const FieldMaturity& here = *all.fields[c.here].maturity;
    const FieldMaturity& there = *all.fields[c.there].maturity;
    const std::string once = fixed(c.move_cost_t, 1);
    const std::string twice = fixed(2.0 * c.move_cost_t, 1);
    const auto row = [](const FieldMaturity& m, const char* what, double stayed, double moved) {
        return std::vector<std::string>{m.field + what, chance_text(m, stayed), chance_text(m, moved)};
    };
    const char* in = " in its window when cut, %";
    const char* past = " past its window when cut, %";
    return table_html({"", here.field + " first", there.field + " first, then back"},
                      {row(here, in, c.here_if_stayed.in, c.here_if_moved.in),
                       row(here, past, c.here_if_stayed.past, c.here_if_moved.past),
                       row(there, in, c.there_if_stayed.in, c.there_if_moved.in),
                       row(there, past, c.there_if_stayed.past, c.there_if_moved.past),
                       {"peas of " + here.field + ", t", "as it stands", signed_t(c.here_t)},
                       {"peas of " + there.field + ", t", "as it stands", signed_t(c.there_t)},
                       {"harvest forgone by moves, t", once, twice}},
                      {0});
}

std::string in_money(double t, const Day& day) {
    if (!day.ripeness.price_per_t) return {};
    return " (" + fixed(t * *day.ripeness.price_per_t, 0) + " in money)";
}

std::string sentence(const MoveChoice& c, const MovingOn& all, const Day& day) {
    const std::string here = escaped(all.fields[c.here].maturity->field);
    const std::string there = escaped(all.fields[c.there].maturity->field);
    return "<p>Going from <b>" + here + "</b> to <b>" + there + "</b> now and back later: " + here +
           " is cut " + fixed(c.later_h, 0) + " h later, " + signed_t(c.here_t) + " t" +
           in_money(c.here_t.mean, day) + "; " + there + " " + fixed(c.earlier_h, 0) + " h earlier, " +
           signed_t(c.there_t) + " t" + in_money(c.there_t.mean, day) + "; one move more, " +
           fixed(day.ripeness.move_min, 0) + " min, in which the gang would have harvested " +
           fixed(c.move_cost_t, 1) + " t" + in_money(c.move_cost_t, day) + ".</p>\n";
}

}  // namespace

std::string moving_on_html(const Day& day, const DayResult& result) {
    const std::optional<MovingOn> all = moving_on(day, result.fields, result.maturity);
    if (!all) return {};
    std::string html = "<h2>Not full enough: what moving on costs and gains</h2>\n" + left_table(*all);
    for (const MoveChoice& c : all->choices) html += sentence(c, *all, day) + choice_table(c, *all);
    const bool lent =
        std::any_of(all->fields.begin(), all->fields.end(), [](const FieldLeft& f) { return !f.own_yield; });
    html += "<p class=\"quiet\">As if the gang works on without a break from the day's end, at the day's " +
            fixed(all->pace_tph, 1) +
            " t/h with turns, tips and stops. Harvest forgone by a move still stands in the field; it is "
            "missing at "
            "the intake. ± : 9 times in 10, by the doubt about readings, ripening and weather; the table of "
            "yield by reading is taken as it is.";
    if (lent) html += " A field not cut yet is taken to yield what the others did at the common reading.";
    return html + " What to do with it is for people to say.</p>\n";
}

}  // namespace podrate::sim
