#include "fields/field_finder.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace podrate::sim {
namespace {

constexpr double kPatchM = 50.0;
constexpr double kOtherFieldM = 200.0;   // ground not cut, between two fields; to the size of a patch
constexpr double kLeastFieldM2 = 100.0;  // less is a reel tried out on the road

// "field A" to "field Z", then "field AA".
std::string letter_name(std::size_t number) {
    std::string letters;
    for (std::size_t rest = number + 1; rest > 0; rest = (rest - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return "field " + letters;
}

}  // namespace

FieldFinder::FieldFinder(const std::vector<Field>& fields,
                         const std::vector<const std::vector<WorkPoint>*>& machines)
    : map_(fields) {
    for (const Field& field : fields) names_.push_back(field.name);
    gather(machines);
    name_groups(group_patches());
}

FieldFinder::Cell FieldFinder::cell_of(LatLon place) const {
    const EastNorth at = plane_.to_east_north(place);
    return {std::lround(at.east_m / kPatchM), std::lround(at.north_m / kPatchM)};
}

void FieldFinder::gather(const std::vector<const std::vector<WorkPoint>*>& machines) {
    for (const std::vector<WorkPoint>* points : machines) {
        for (const WorkPoint& point : *points) {
            if (!point.placed || point.area_m2 <= 0.0F || map_.at(point.place()) >= 0) continue;
            if (patches_.empty()) plane_ = LocalFrame(point.place());
            Patch& patch = patches_[cell_of(point.place())];
            if (patch.begun_us == 0 || point.time_us < patch.begun_us) {
                patch.begun_us = point.time_us;
                patch.first = point.place();
            }
            patch.area_m2 += static_cast<double>(point.area_m2);
        }
    }
}

// Patches no further apart than kOtherFieldM belong together. Gives what each group adds up to.
std::vector<FieldFinder::Patch> FieldFinder::group_patches() {
    constexpr long kReach = static_cast<long>(kOtherFieldM / kPatchM) + 1;
    const auto gap = [](long by) { return static_cast<double>(std::max(std::labs(by) - 1, 0L)) * kPatchM; };
    std::vector<Patch> groups;
    for (auto& [start, first] : patches_) {
        if (first.group >= 0) continue;
        const auto group = static_cast<int>(groups.size());
        Patch sum = first;
        sum.area_m2 = 0.0;
        std::vector<Cell> open = {start};
        first.group = group;
        while (!open.empty()) {
            const Cell here = open.back();
            open.pop_back();
            const Patch& patch = patches_.at(here);
            sum.area_m2 += patch.area_m2;
            if (patch.begun_us < sum.begun_us) {
                sum.begun_us = patch.begun_us;
                sum.first = patch.first;
            }
            for (long east = -kReach; east <= kReach; ++east) {
                for (long north = -kReach; north <= kReach; ++north) {
                    if (std::hypot(gap(east), gap(north)) > kOtherFieldM) continue;
                    const auto next = patches_.find({here.first + east, here.second + north});
                    if (next == patches_.end() || next->second.group >= 0) continue;
                    next->second.group = group;
                    open.push_back(next->first);
                }
            }
        }
        groups.push_back(sum);
    }
    return groups;
}

void FieldFinder::name_groups(std::vector<Patch> groups) {
    field_of_group_.assign(groups.size(), -1);
    std::vector<std::size_t> order(groups.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&groups](std::size_t a, std::size_t b) {
        return groups[a].begun_us < groups[b].begun_us;
    });
    std::size_t letter = 0;
    for (const std::size_t group : order) {
        if (groups[group].area_m2 < kLeastFieldM2) continue;
        std::string name = letter_name(letter++);
        while (std::find(names_.begin(), names_.end(), name) != names_.end()) name = letter_name(letter++);
        field_of_group_[group] = static_cast<int>(names_.size());
        names_.push_back(name);
        frames_.emplace_back(groups[group].first);
    }
}

int FieldFinder::at(LatLon place) const {
    const int field = map_.at(place);
    if (field >= 0 || patches_.empty()) return field;
    const auto patch = patches_.find(cell_of(place));
    return patch == patches_.end() ? -1 : field_of_group_[static_cast<std::size_t>(patch->second.group)];
}

const LocalFrame& FieldFinder::frame(std::size_t field) const {
    return bounded(field) ? map_.frame(field) : frames_[field - map_.size()];
}

}  // namespace podrate::sim
