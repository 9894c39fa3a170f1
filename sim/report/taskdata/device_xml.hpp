// Machines and fields in TASKDATA.XML.
#pragma once

#include <pugixml.hpp>

#include "day/day.hpp"
#include "fields/field_figures.hpp"

namespace podrate::sim {

// A DVC: the viner with its reel and its hopper, and what each of them tells.
void add_device(pugi::xml_node root, std::size_t index, const Machine& machine);

// A PFD; `boundary`: null where it has none. `crop_id`: of a CTP.
void add_partfield(pugi::xml_node root, std::size_t index, const FieldFigures& figures, const Field* boundary,
                   const char* crop_id);

}  // namespace podrate::sim
