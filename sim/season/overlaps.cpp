#include "season/overlaps.hpp"

#include <algorithm>
#include <map>

namespace podrate::sim {
namespace {

bool same_run(const SeasonMachine& a, const SeasonMachine& b) {
    return a.usable && b.usable && a.id == b.id && a.first_us == b.first_us && a.last_us == b.last_us &&
           a.rows == b.rows;
}

bool repeats(const DayFigures& later, const DayFigures& earlier) {
    return earlier.counts() && std::all_of(later.machines.begin(), later.machines.end(), [&](const auto& m) {
               return !m.usable || std::any_of(earlier.machines.begin(), earlier.machines.end(),
                                               [&m](const SeasonMachine& e) { return same_run(m, e); });
           });
}

struct Run {
    std::int64_t first_us;
    std::int64_t last_us;
    std::size_t day;
};

}  // namespace

void mark_overlaps(std::vector<DayFigures>& days, std::vector<std::string>& notes) {
    std::map<std::string, std::vector<Run>> runs;  // by machine, of the days that count
    for (std::size_t d = 0; d < days.size(); ++d) {
        DayFigures& day = days[d];
        if (!day.counts()) continue;
        std::map<std::size_t, std::string> met;  // days that share hours with this one, and whose
        for (const SeasonMachine& machine : day.machines) {
            if (!machine.usable) continue;
            for (const Run& run : runs[machine.id]) {
                if (machine.first_us < run.last_us && run.first_us < machine.last_us)
                    met[run.day] = machine.id;
            }
        }
        const auto original = std::find_if(
            met.begin(), met.end(), [&](const auto& other) { return repeats(day, days[other.first]); });
        if (original != met.end()) {
            day.use = DayUse::repeated;
            day.reason = "the same logs as in " + days[original->first].folder + ", which counts";
            continue;
        }
        for (const auto& [other, id] : met) {
            notes.push_back(day.folder + ": hours of " + id + " stand in " + days[other].folder +
                            " too; peas may be counted twice");
        }
        for (const SeasonMachine& machine : day.machines) {
            if (machine.usable) runs[machine.id].push_back({machine.first_us, machine.last_us, d});
        }
    }
}

}  // namespace podrate::sim
