// All fields of a day: those with a boundary, and those found from where crop was cut outside all of them.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "fields/field_map.hpp"
#include "fields/work_track.hpp"

namespace podrate::sim {

class FieldFinder {
  public:
    // `machines`: each machine's points.
    FieldFinder(const std::vector<Field>& fields, const std::vector<const std::vector<WorkPoint>*>& machines);

    // First the fields with a boundary, in their order, then those found, in the order in which they were
    // begun; -1 where no field is.
    [[nodiscard]] int at(LatLon place) const;

    [[nodiscard]] std::size_t count() const { return names_.size(); }
    [[nodiscard]] bool bounded(std::size_t field) const { return field < map_.size(); }
    // "field A", "field B", ... where they have no other.
    [[nodiscard]] const std::string& name(std::size_t field) const { return names_[field]; }
    [[nodiscard]] const LocalFrame& frame(std::size_t field) const;
    [[nodiscard]] const FieldMap& map() const { return map_; }

  private:
    using Cell = std::pair<long, long>;
    struct Patch {
        TimeUs begun_us = 0;
        LatLon first;
        double area_m2 = 0.0;
        int group = -1;
    };
    [[nodiscard]] Cell cell_of(LatLon place) const;
    void gather(const std::vector<const std::vector<WorkPoint>*>& machines);
    std::vector<Patch> group_patches();
    void name_groups(std::vector<Patch> groups);

    FieldMap map_;
    LocalFrame plane_{LatLon{}};
    std::map<Cell, Patch> patches_;  // outside all boundaries
    std::vector<int> field_of_group_;
    std::vector<LocalFrame> frames_;  // of the fields found
    std::vector<std::string> names_;
};

}  // namespace podrate::sim
