#include "report/taskdata/tasks.hpp"

#include <algorithm>
#include <cmath>

#include "fields/field_shares.hpp"
#include "report/taskdata/whole_units.hpp"

namespace podrate::sim {
namespace {

constexpr double kLeastTaskKg = 0.5;
constexpr double kLeastTaskM2 = 0.5;

using Table = std::vector<std::vector<double>>;  // by machine, then by field

// The day's kilograms and square metres, without crumbs.
struct Amounts {
    Table kg;
    Table m2;

    void add(const MachineResult& machine, const std::vector<FieldShare>& shares) {
        std::vector<double> row_kg;
        std::vector<double> row_m2;
        auto untold_m2 = static_cast<double>(machine.last.area_m2);
        for (const FieldShare& share : shares) {
            row_kg.push_back(share.harvested_kg);
            row_m2.push_back(share.swept_m2);
            untold_m2 -= share.swept_m2;
        }
        const auto greatest = std::max_element(row_kg.begin(), row_kg.end()) - row_kg.begin();
        // What was cut in the second under way at the log's end.
        if (machine.usable) row_m2[static_cast<std::size_t>(greatest)] += untold_m2;
        for (std::size_t f = 0; f < shares.size(); ++f) {
            const bool crumb = std::abs(row_kg[f]) < kLeastTaskKg && row_m2[f] < kLeastTaskM2;
            if (!crumb || static_cast<std::ptrdiff_t>(f) == greatest) continue;
            row_kg[static_cast<std::size_t>(greatest)] += std::exchange(row_kg[f], 0.0);
            row_m2[static_cast<std::size_t>(greatest)] += std::exchange(row_m2[f], 0.0);
        }
        kg.push_back(std::move(row_kg));
        m2.push_back(std::move(row_m2));
    }
};

// The field of each second of a track, by the machine's points; none for travel outside all fields.
std::vector<std::optional<std::size_t>> fields_of(const std::vector<TaskSecond>& track,
                                                  const MachineResult& machine, const FieldFinder& finder) {
    const Whereabouts where = whereabouts(machine.work, finder);
    std::vector<std::optional<std::size_t>> fields;
    std::size_t point = 0;
    for (const TaskSecond& second : track) {
        while (point + 1 < machine.work.size() && machine.work[point].time_us < second.time_us) ++point;
        const bool away = second.state == WorkState::travelling &&
                          (machine.work.empty() || where.cut[point] == finder.count());
        fields.push_back(away ? std::nullopt : std::optional(where.time[point]));
    }
    return fields;
}

void add_visits(const std::vector<TaskSecond>& track,
                const std::vector<std::optional<std::size_t>>& field_of_second, std::size_t field,
                FieldTask& task) {
    for (std::size_t i = 0; i < track.size(); ++i) {
        if (field_of_second[i] != field) continue;
        if (task.visits.empty() || task.visits.back().second != i) task.visits.emplace_back(i, i);
        task.visits.back().second = i + 1;
        task.ineffective_m += static_cast<double>(track[i].idle_m);
    }
}

}  // namespace

std::vector<FieldTask> field_tasks(const DayResult& result, const FieldFinder& finder,
                                   const TaskTracks& tracks) {
    Amounts amounts;
    std::vector<std::vector<FieldShare>> shares;
    for (const MachineResult& machine : result.machines) {
        shares.push_back(field_shares(machine, finder));
        amounts.add(machine, shares.back());
    }
    const auto whole_kg = whole_units(amounts.kg);
    const auto whole_m2 = whole_units(amounts.m2);
    std::vector<FieldTask> tasks;
    for (std::size_t m = 0; m < result.machines.size(); ++m) {
        const MachineResult& machine = result.machines[m];
        if (!machine.usable || machine.work.empty()) continue;
        const auto field_of_second = fields_of(tracks[m], machine, finder);
        for (std::size_t f = 0; f < shares[m].size(); ++f) {
            if (amounts.kg[m][f] == 0.0 && amounts.m2[m][f] == 0.0) continue;
            FieldTask task;
            task.machine = m;
            if (f < finder.count()) task.field = f;
            task.mass_kg = whole_kg[m][f];
            task.area_m2 = whole_m2[m][f];
            task.effective_m = amounts.m2[m][f] / static_cast<double>(machine.parameters.width_m);
            task.effective_s = shares[m][f].harvesting_s;
            task.ineffective_s = std::max(0.0, shares[m][f].in_field_s - shares[m][f].harvesting_s);
            add_visits(tracks[m], field_of_second, f, task);
            tasks.push_back(std::move(task));
        }
    }
    return tasks;
}

}  // namespace podrate::sim
