// The fields of a day's machines.
#pragma once

#include "day/day.hpp"
#include "fields/field_finder.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

inline FieldFinder finder_of_day(const Day& day, const std::vector<MachineResult>& machines) {
    std::vector<const std::vector<WorkPoint>*> points;
    for (const MachineResult& machine : machines) points.push_back(&machine.work);
    return {day.fields, points};
}

}  // namespace podrate::sim
