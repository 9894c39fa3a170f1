#include "maturity/moving_on.hpp"

#include <algorithm>
#include <cmath>

#include "log/units.hpp"
#include "maturity/yield_by_reading.hpp"

namespace podrate::sim {
namespace {

constexpr double kLeastLeftM2 = 500.0;  // less is a bout's end, not a field
constexpr double kDayAheadS = 86400.0;

// The gang at work, by all fields of the day.
struct GangPace {
    double kg_per_h = 0.0;
    double ha_per_h = 0.0;
    double common_tpha = 0.0;
};

const FieldMaturity* of_name(const std::vector<FieldMaturity>& all, const std::string& name) {
    const auto found =
        std::find_if(all.begin(), all.end(), [&name](const FieldMaturity& m) { return m.field == name; });
    return found == all.end() ? nullptr : &*found;
}

GangPace gang_pace(const std::vector<FieldFigures>& fields, const std::vector<FieldMaturity>& maturity) {
    GangPace pace;
    double hours = 0.0;
    double kg = 0.0;
    double m2 = 0.0;
    int machines = 0;
    double common_kg = 0.0;
    double common_m2 = 0.0;
    for (const FieldFigures& f : fields) {
        hours += f.in_field_h;
        kg += f.harvested_kg;
        m2 += f.covered_m2;
        machines = std::max(machines, f.machines);
        const FieldMaturity* m = of_name(maturity, f.name);
        if (m == nullptr || !m->adjusted) continue;
        common_kg += m->adjusted->yield_tpha.middle * f.covered_m2;
        common_m2 += f.covered_m2;
    }
    if (hours <= 0.0 || m2 <= 0.0) return pace;
    pace.kg_per_h = kg / hours * machines;
    pace.ha_per_h = m2 / 1e4 / hours * machines;
    pace.common_tpha = common_m2 > 0.0 ? common_kg / common_m2 : kg / m2 * 10.0;
    return pace;
}

// Change of a field's peas where it is cut at `second_s` and not at `first_s`, the earlier.
ChangeT change(const FieldLeft& field, const Day& day, double first_s, double second_s) {
    const YieldByReading yields(day.yield_table);
    const double standing_t = field.common_tpha * field.left_ha / yields.at(day.ripeness.common_tenderometer);
    const Ripening::MeanSd by = field.maturity->ripening.expect(
        first_s, second_s, [&](double first, double second) { return yields.at(second) - yields.at(first); });
    return {standing_t * by.mean, kReach90 * standing_t * by.sd};
}

WindowChance window_chance(const FieldMaturity& m, double unix_s) {
    if (!m.window) return {};
    return {m.in_window(unix_s), m.ripening.chance_above(unix_s, m.window->high)};
}

MoveChoice choice_of(const MovingOn& all, std::size_t here, std::size_t there, const Day& day) {
    const FieldLeft& a = all.fields[here];
    const FieldLeft& b = all.fields[there];
    const double move_s = day.ripeness.move_min * 60.0;
    const double work_a_s = a.work_h * 3600.0;
    const double work_b_s = b.work_h * 3600.0;
    const double now_s = a.maturity->now_s;
    const double here_stayed_s = now_s + 0.5 * work_a_s;
    const double there_stayed_s = now_s + work_a_s + move_s + 0.5 * work_b_s;
    const double there_moved_s = now_s + move_s + 0.5 * work_b_s;
    const double here_moved_s = now_s + move_s + work_b_s + move_s + 0.5 * work_a_s;
    MoveChoice c;
    c.here = here;
    c.there = there;
    c.here_t = change(a, day, here_stayed_s, here_moved_s);
    c.there_t = change(b, day, there_moved_s, there_stayed_s);
    c.there_t.mean = -c.there_t.mean;
    c.move_cost_t = all.pace_tph * day.ripeness.move_min / 60.0;
    c.later_h = (here_moved_s - here_stayed_s) / 3600.0;
    c.earlier_h = (there_stayed_s - there_moved_s) / 3600.0;
    c.here_if_stayed = window_chance(*a.maturity, here_stayed_s);
    c.here_if_moved = window_chance(*a.maturity, here_moved_s);
    c.there_if_stayed = window_chance(*b.maturity, there_stayed_s);
    c.there_if_moved = window_chance(*b.maturity, there_moved_s);
    return c;
}

}  // namespace

std::optional<MovingOn> moving_on(const Day& day, const std::vector<FieldFigures>& fields,
                                  const std::vector<FieldMaturity>& maturity) {
    const GangPace pace = gang_pace(fields, maturity);
    if (pace.ha_per_h <= 0.0) return std::nullopt;
    MovingOn all;
    all.pace_tph = pace.kg_per_h / 1e3;
    std::optional<std::size_t> here;
    TimeUs newest_us = 0;
    for (const FieldFigures& f : fields) {
        const FieldMaturity* m = of_name(maturity, f.name);
        const bool left = m != nullptr && f.bounded && f.left_m2 >= kLeastLeftM2;
        if (f.last_cut_us > newest_us) {
            newest_us = f.last_cut_us;
            here = left ? std::optional<std::size_t>(all.fields.size()) : std::nullopt;
        }
        if (!left) continue;
        FieldLeft field;
        field.maturity = m;
        field.left_ha = f.left_m2 / 1e4;
        field.own_yield = m->adjusted.has_value();
        field.common_tpha = field.own_yield ? m->adjusted->yield_tpha.middle : pace.common_tpha;
        field.work_h = field.left_ha / pace.ha_per_h;
        field.in_a_day = m->ripening.at(m->now_s + kDayAheadS);
        field.in_window_in_a_day = m->in_window(m->now_s + kDayAheadS);
        field.by_a_day = change(field, day, m->now_s, m->now_s + kDayAheadS);
        all.fields.push_back(field);
    }
    if (all.fields.empty()) return std::nullopt;
    for (std::size_t there = 0; here && there < all.fields.size(); ++there) {
        if (there != *here) all.choices.push_back(choice_of(all, *here, there, day));
    }
    return all;
}

}  // namespace podrate::sim
