// What one machine took from each field and what it spent there.
#pragma once

#include <vector>

#include "fields/field_finder.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

struct FieldShare {
    double swept_m2 = 0.0;  // width times distance with the reel on, overlap and all
    double harvested_kg = 0.0;
    double lost_kg = 0.0;
    double lost_sd_kg = 0.0;  // of the machine's loss there; doubt that its fields share
    double harvesting_s = 0.0;
    double cut_kg_s = 0.0;    // peas times the unix second of their cut
    TimeUs last_cut_us = 0;   // 0: nothing was cut there
    double in_field_s = 0.0;  // travel and silence of the log not counted
};

// The field of each point; finder.count() where that is not known. A place outside all fields is elsewhere
// for what is cut there; time spent beside the crop, to turn or to tip, belongs to the field before.
struct Whereabouts {
    std::vector<std::size_t> cut;
    std::vector<std::size_t> time;
};

Whereabouts whereabouts(const std::vector<WorkPoint>& points, const FieldFinder& finder);

// In the order of the finder's fields, and one more at the end for what has no place or lies in no field.
// Peas belong to the place where they were cut: the estimator's yield there times the area, scaled so that
// all add up to what the machine harvested. Lost peas are told by what is known of the loss at the day's end.
std::vector<FieldShare> field_shares(const MachineResult& machine, const FieldFinder& finder);

}  // namespace podrate::sim
