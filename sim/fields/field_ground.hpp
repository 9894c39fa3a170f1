// How much ground of each field is covered, by all machines together.
#pragma once

#include <vector>

#include "fields/cut_strips.hpp"
#include "fields/field_finder.hpp"

namespace podrate::sim {

struct FieldGround {
    double own_m2 = 0.0;      // within the boundary, without fields nested in it; 0 where there is none
    double covered_m2 = 0.0;  // of that; or in all, where there is no boundary
    double beyond_m2 = 0.0;   // covered beside the boundary and in no other field
};

// In the order of the finder's fields. Ground counts once; slits of up to a metre between bouts are taken for
// the receiver's wandering and counted as cut.
std::vector<FieldGround> field_ground(const std::vector<Field>& fields, const FieldFinder& finder,
                                      const std::vector<CutStrip>& strips);

}  // namespace podrate::sim
