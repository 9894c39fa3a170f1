#include "season/day_figures.hpp"

#include <algorithm>
#include <cmath>

#include "day/local_time.hpp"
#include "fields/field_shares.hpp"
#include "fields/finder_of_day.hpp"
#include "log/problem.hpp"

namespace podrate::sim {
namespace {

// The first thing that had to be left out, and how many more.
std::string reason_of(const Day& day, const DayResult& result) {
    std::string first;
    std::uint64_t count = 0;
    const auto take = [&](const Problems& problems) {
        count += problems.faults();
        for (const Problem& problem : problems.kept()) {
            if (first.empty() && !problem.note) first = to_text(problem);
        }
    };
    for (const MachineResult& machine : result.machines) {
        if (machine.usable) continue;
        ++count;
        if (first.empty()) first = machine.refusal;
    }
    take(day.problems);
    for (const MachineResult& machine : result.machines) take(machine.problems);
    if (count > 1) first += " (and " + std::to_string(count - 1) + " more)";
    return first;
}

SeasonMachine machine_figures(const MachineResult& m) {
    SeasonMachine figures;
    figures.id = m.id;
    figures.usable = m.usable;
    figures.rows = m.rows_read;
    if (!m.usable) return figures;
    figures.harvested_kg = static_cast<double>(m.last.harvested_kg);
    figures.harvested_sd_kg = static_cast<double>(m.last.harvested_sd_kg);
    figures.area_m2 = static_cast<double>(m.last.area_m2);
    figures.harvesting_s = m.seconds(WorkState::harvesting);
    figures.loads = m.loads.size();
    figures.first_us = m.first_us;
    figures.last_us = m.last_us;
    return figures;
}

}  // namespace

const char* name_of(DayUse use) {
    constexpr const char* kNames[] = {"whole", "in part", "broken", "repeated"};
    return kNames[static_cast<std::size_t>(use)];
}

std::int64_t DayFigures::first_us() const {
    std::int64_t first = 0;
    for (const SeasonMachine& m : machines) {
        if (m.usable && (first == 0 || m.first_us < first)) first = m.first_us;
    }
    return first;
}

DayFigures day_figures(const Day& day, const DayResult& result) {
    DayFigures figures;
    figures.label = day.label;
    figures.date = day.date.empty() ? local_time(result.first_us, day.time_zone).date : day.date;
    figures.use = result.all_used(day) ? DayUse::whole : DayUse::in_part;
    if (figures.use == DayUse::in_part) figures.reason = reason_of(day, result);
    figures.planned_t = result.planned_t;
    const FieldFinder finder = finder_of_day(day, result.machines);
    for (std::size_t f = 0; f < finder.count(); ++f)
        figures.fields.push_back({finder.name(f), finder.bounded(f), false,
                                  f < result.fields.size() ? result.fields[f].covered_m2 : 0.0});
    figures.fields.push_back({"elsewhere", false, true, 0.0});
    for (std::size_t m = 0; m < result.machines.size(); ++m) {
        SeasonMachine machine = machine_figures(result.machines[m]);
        const std::vector<FieldShare> shares = field_shares(result.machines[m], finder);
        for (std::size_t f = 0; f < shares.size(); ++f) {
            const FieldShare& s = shares[f];
            machine.lost_kg += s.lost_kg;
            machine.lost_sd_kg += s.lost_sd_kg;
            if (s.harvested_kg == 0.0 && s.swept_m2 == 0.0 && s.in_field_s == 0.0) continue;
            figures.shares.push_back(
                {m, f, s.harvested_kg, s.swept_m2, s.lost_kg, s.lost_sd_kg, s.harvesting_s, s.in_field_s});
        }
        figures.machines.push_back(machine);
    }
    return figures;
}

}  // namespace podrate::sim
