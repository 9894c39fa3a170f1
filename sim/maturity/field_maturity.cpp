#include "maturity/field_maturity.hpp"

#include <algorithm>

#include "day/calendar.hpp"
#include "day/local_time.hpp"
#include "maturity/yield_by_reading.hpp"

namespace podrate::sim {
namespace {

std::vector<MaturityReading> readings_about(const Day& day, double end_s) {
    std::vector<MaturityReading> about;
    std::copy_if(day.maturity.begin(), day.maturity.end(), std::back_inserter(about),
                 [end_s](const MaturityReading& r) {
                     return r.unix_s >= end_s - kReadingsBackS && r.unix_s <= end_s + kReadingsAheadS;
                 });
    return about;
}

// Names of fields with readings.
std::vector<std::string> fields_read(const Day& day, const std::vector<MaturityReading>& readings) {
    std::vector<std::string> names;
    const auto add = [&names](const std::string& name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    };
    const auto is_read = [&readings](const Field& field) {
        return std::any_of(readings.begin(), readings.end(),
                           [&field](const MaturityReading& r) { return r.field == field.name; });
    };
    for (const Field& field : day.fields) {
        if (is_read(field)) add(field.name);
    }
    for (const MaturityReading& reading : readings) add(reading.field);
    return names;
}

std::optional<AdjustedYield> adjusted_yield(const Ripening& ripening, const FieldFigures& f, const Day& day) {
    if (f.mean_cut_unix_s <= 0.0 || f.covered_m2 <= 0.0) return std::nullopt;
    const YieldByReading yields(day.yield_table);
    AdjustedYield adjusted;
    adjusted.reading = ripening.at(f.mean_cut_unix_s);
    const double common = yields.at(day.ripeness.common_tenderometer);
    const auto at = [&](double reading) { return f.yield_tpha() * common / yields.at(reading); };
    // A riper field yields more, so its yield is told down; the table may turn, so the ends are sorted.
    const double ends[] = {at(adjusted.reading.low), at(adjusted.reading.high)};
    adjusted.yield_tpha = {std::min(ends[0], ends[1]), at(adjusted.reading.middle),
                           std::max(ends[0], ends[1])};
    return adjusted;
}

void tell_window(const Field& field, const Day& day, FieldMaturity& m) {
    if (!field.target_tenderometer) return;
    const double target = *field.target_tenderometer;
    m.window = {target, target - day.ripeness.window_below, target + day.ripeness.window_above};
    m.in_window_now = m.in_window(m.now_s);
    m.enters = m.ripening.when(m.window->low);
    m.leaves = m.ripening.when(m.window->high);
}

}  // namespace

double FieldMaturity::in_window(double unix_s) const {
    if (!window) return 0.0;
    return std::max(0.0,
                    ripening.chance_above(unix_s, window->low) - ripening.chance_above(unix_s, window->high));
}

std::vector<FieldMaturity> field_maturity(const Day& day, const std::vector<FieldFigures>& fields,
                                          TimeUs last_us) {
    const double end_s = static_cast<double>(last_us) / 1e6;
    const std::vector<MaturityReading> about = readings_about(day, end_s);
    if (about.empty()) return {};
    const double now_s = std::max(end_s, about.back().unix_s);
    const auto clock =
        std::make_shared<const HeatClock>(day.weather, day.ripeness, day.time_zone,
                                          std::min(about.front().unix_s, end_s), now_s + kOutlookS, now_s);
    std::vector<FieldMaturity> all;
    for (const std::string& name : fields_read(day, about)) {
        std::vector<MaturityReading> readings;
        std::copy_if(about.begin(), about.end(), std::back_inserter(readings),
                     [&name](const MaturityReading& r) { return r.field == name; });
        FieldMaturity m{
            name, Ripening(std::move(readings), clock, day.ripeness), {}, {}, now_s, {}, 0.0, {}, {}, {}};
        m.now = m.ripening.at(now_s);
        for (const Field& field : day.fields) {
            if (field.name != name) continue;
            tell_window(field, day, m);
            const std::optional<long> sown = day_number(field.sown);
            const std::optional<long> today = day_number(local_time(last_us, day.time_zone).date);
            if (sown && today) m.heat_units = heat_since_sowing(day.weather, day.ripeness, *sown, *today);
            break;
        }
        for (const FieldFigures& f : fields) {
            if (f.name == name) m.adjusted = adjusted_yield(m.ripening, f, day);
        }
        all.push_back(std::move(m));
    }
    return all;
}

std::optional<AdjustedYield> adjusted_yield_of(const std::string& field,
                                               const std::vector<FieldMaturity>& maturity) {
    for (const FieldMaturity& m : maturity) {
        if (m.field == field) return m.adjusted;
    }
    return std::nullopt;
}

}  // namespace podrate::sim
