// A day as tasks: what each machine did in each field.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "fields/field_finder.hpp"
#include "replay/day_replay.hpp"
#include "report/taskdata/task_track.hpp"

namespace podrate::sim {

// A machine's seconds; of each machine of a day, in its order.
using TaskTracks = std::vector<std::vector<TaskSecond>>;

struct FieldTask {
    std::size_t machine = 0;
    std::optional<std::size_t> field;  // of the finder; none for what lies in no field
    // Rounded down or up so that machines, fields and the day keep their sums to a unit (whole_units).
    std::int64_t mass_kg = 0;
    std::int64_t area_m2 = 0;  // width times distance with the reel on
    double effective_m = 0.0;  // rolled while harvesting
    double ineffective_m = 0.0;
    double effective_s = 0.0;
    double ineffective_s = 0.0;
    // Its seconds: from the first of each pair to before the second, in the machine's track.
    std::vector<std::pair<std::size_t, std::size_t>> visits;
};

// By machine, then by field. What a machine took along its way, less than 0.5 kg and 0.5 m2 in a field, goes
// to its greatest task. Travel outside all fields is in none.
std::vector<FieldTask> field_tasks(const DayResult& result, const FieldFinder& finder,
                                   const TaskTracks& tracks);

}  // namespace podrate::sim
