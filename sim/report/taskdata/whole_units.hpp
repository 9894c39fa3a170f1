// A table in whole units whose rows and columns still add up.
#pragma once

#include <cstdint>
#include <vector>

namespace podrate::sim {

// Rounds each cell down or up so that each row's, each column's and the whole table's sum is its own rounded
// down or up as well: controlled rounding (L. H. Cox, J. Am. Stat. Assoc. 82(398): 520-524, 1987; from
// memory). A whole cell stays as it is, to a millionth. Cells are within 1e12; all rows are equally long.
std::vector<std::vector<std::int64_t>> whole_units(const std::vector<std::vector<double>>& table);

}  // namespace podrate::sim
