#include "maps/day_map.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "fields/finder_of_day.hpp"
#include "maps/peas_by_cell.hpp"
#include "maps/yield_surface.hpp"

namespace podrate::sim {
namespace {

constexpr int kOverlapReach = 2;  // cells to each side over which overlap is taken as even

std::optional<LatLon> first_place_cut(const std::vector<MachineResult>& machines) {
    for (const MachineResult& machine : machines) {
        if (!machine.usable) continue;
        for (const WorkPoint& point : machine.work) {
            if (point.placed && point.area_m2 > 0.0F) return point.place();
        }
    }
    return std::nullopt;
}

struct Swept {
    double m2 = 0.0;  // width times distance, overlap and all
    double seconds = 0.0;
};

void add_swept(const SwathQuads& swath, std::vector<Swept>& cells) {
    for (const SwathQuad& quad : swath.quads) {
        const double seconds = static_cast<double>(quad.end_us - quad.start_us) / 1e6;
        for (std::size_t s = quad.first_share; s < quad.first_share + quad.shares; ++s) {
            const CellShare& share = swath.shares[s];
            cells[share.cell].m2 += share.share * (quad.to_m2 - quad.from_m2);
            cells[share.cell].seconds += share.share * seconds;
        }
    }
}

// A receiver puts one bout a little too near its neighbour and the next too far: of a single cell ground
// covered and peas do not belong together. What was swept in it does, less the overlap about.
void set_cut_ground(const std::vector<Swept>& swept, const std::vector<double>& covered_m2, DayMap& map) {
    std::map<std::pair<std::int32_t, std::int32_t>, std::size_t> numbers;
    for (std::size_t i = 0; i < map.cells.size(); ++i)
        numbers[{map.cells[i].place.row, map.cells[i].place.column}] = i;
    for (std::size_t i = 0; i < map.cells.size(); ++i) {
        MapCell& cell = map.cells[i];
        double of_ground_m2 = 0.0;
        double of_swept_m2 = 0.0;
        for (int north = -kOverlapReach; north <= kOverlapReach; ++north) {
            const auto from =
                numbers.lower_bound({cell.place.row + north, cell.place.column - kOverlapReach});
            for (auto at = from; at != numbers.end() && at->first.first == cell.place.row + north &&
                                 at->first.second <= cell.place.column + kOverlapReach;
                 ++at) {
                of_ground_m2 += covered_m2[at->second];
                of_swept_m2 += swept[at->second].m2;
            }
        }
        cell.cut_m2 = of_swept_m2 > 0.0 ? swept[i].m2 * of_ground_m2 / of_swept_m2 : 0.0;
        cell.seconds = swept[i].seconds;
    }
}

}  // namespace

std::optional<DayMap> day_map(const Day& day, const std::vector<MachineResult>& machines) {
    const std::optional<LatLon> near = first_place_cut(machines);
    if (!near) return std::nullopt;
    DayMap map(*near, day.map_cell_m);
    CellGrid grid(*near, day.map_cell_m);
    std::vector<SwathQuads> swaths;
    for (const MachineResult& machine : machines) {
        swaths.emplace_back();
        if (machine.usable)
            swaths.back() = swath_quads(machine.work, static_cast<double>(machine.parameters.width_m), grid);
    }
    map.cells.resize(grid.cells().size());
    std::vector<Swept> swept(map.cells.size());
    for (std::size_t i = 0; i < map.cells.size(); ++i) map.cells[i].place = grid.cells()[i];
    for (std::size_t m = 0; m < machines.size(); ++m) {
        add_swept(swaths[m], swept);
        const PeasByCell peas = peas_by_cell(machines[m], swaths[m]);
        map.unplaced_kg += peas.unplaced_kg;
        map.unplaced_lost_kg += peas.unplaced_lost_kg;
        for (std::size_t i = 0; i < peas.cells.size(); ++i) {
            MapCell& cell = map.cells[i];
            cell.harvested_kg += peas.cells[i].kg;
            cell.harvested_sd_kg = std::hypot(cell.harvested_sd_kg, std::sqrt(peas.cells[i].variance_kg2));
            cell.lost_kg += peas.cells[i].lost_kg;
            cell.lost_sd_kg += peas.cells[i].lost_sd_kg;
        }
    }
    const FieldFinder finder = finder_of_day(day, machines);
    for (std::size_t f = 0; f < finder.count(); ++f) map.fields.push_back(finder.name(f));
    for (MapCell& cell : map.cells) {
        cell.field = finder.at(map.plane.to_lat_lon(
            {(cell.place.column + 0.5) * map.cell_m, (cell.place.row + 0.5) * map.cell_m}));
    }
    set_cut_ground(swept, grid.covered_m2(), map);
    map.marks = map_marks(day, machines);
    add_yield_surface(map);
    std::sort(map.cells.begin(), map.cells.end(), [](const MapCell& a, const MapCell& b) {
        return std::pair(a.place.row, a.place.column) < std::pair(b.place.row, b.place.column);
    });
    return map;
}

}  // namespace podrate::sim
