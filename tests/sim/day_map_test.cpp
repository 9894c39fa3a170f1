// The map of the shipped day, and of days that have none.
#include "maps/day_map.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "fields/field_figures.hpp"
#include "maps/yield_surface.hpp"
#include "replay/day_replay.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

const Day& shipped_day() {
    static const Day kDay = read_day(std::string(PODRATE_SOURCE_DIR) + "/demo_logs/harrowmere");
    return kDay;
}

const DayResult& shipped_result() {
    static const DayResult kResult = replay_day(shipped_day(), {});
    return kResult;
}

struct MapSums {
    double harvested_kg = 0.0;
    double lost_kg = 0.0;
    double cut_m2 = 0.0;
};

MapSums sums_of(const DayMap& map) {
    MapSums sums;
    for (const MapCell& cell : map.cells) {
        sums.harvested_kg += cell.harvested_kg;
        sums.lost_kg += cell.lost_kg;
        sums.cut_m2 += cell.cut_m2;
    }
    return sums;
}

}  // namespace

TEST_CASE("Cells and what has no place add up to what the machines harvested and lost") {
    const auto map = day_map(shipped_day(), shipped_result().machines);
    REQUIRE(map);
    double harvested_kg = 0.0;
    double lost_kg = 0.0;
    for (const MachineResult& machine : shipped_result().machines) {
        harvested_kg += double(machine.last.harvested_kg);
        lost_kg += double(machine.lost.lost_kg);
    }
    const MapSums sums = sums_of(*map);
    CHECK(sums.harvested_kg + map->unplaced_kg == Approx(harvested_kg).margin(0.01).epsilon(0));
    CHECK(sums.lost_kg + map->unplaced_lost_kg == Approx(lost_kg).margin(0.01).epsilon(0));
    // Unplaced is what viner_3 cut while its receiver was silent, no more.
    CHECK(std::abs(map->unplaced_kg) < 0.005 * harvested_kg);
}

TEST_CASE("The ground of the cells is the ground that the machines covered, once") {
    const auto map = day_map(shipped_day(), shipped_result().machines);
    REQUIRE(map);
    double covered_m2 = 0.0;
    for (const FieldFigures& field : field_figures(shipped_day(), shipped_result().machines))
        covered_m2 += field.covered_m2 + field.beyond_m2;
    CHECK(sums_of(*map).cut_m2 == Approx(covered_m2).epsilon(0.01));
    for (const MapCell& cell : map->cells) {
        if (!cell.told(map->cell_m)) continue;
        CHECK(cell.harvested_sd_kg > 0.0);
        CHECK(cell.cut_m2 < 1.5 * map->cell_m * map->cell_m);
        CHECK(cell.field >= 0);
    }
}

TEST_CASE("A day's map marks every tip, stop, heap and tray whose place is known") {
    const auto map = day_map(shipped_day(), shipped_result().machines);
    REQUIRE(map);
    std::size_t counts[kMarkKinds] = {};
    for (const MapMark& mark : map->marks) ++counts[int(mark.kind)];
    std::size_t loads = 0;
    std::size_t pauses = 0;
    for (const MachineResult& machine : shipped_result().machines) {
        loads += machine.loads.size();
        pauses += machine.pauses.size();
    }
    CHECK(counts[int(MarkKind::tip)] == loads);
    CHECK(counts[int(MarkKind::heap)] == pauses);
    CHECK(counts[int(MarkKind::tray_check)] == 9);
    CHECK(counts[int(MarkKind::stop)] >= 10);
    for (const MapMark& mark : map->marks) {
        INFO(name_of(mark.kind));
        CHECK(mark.place.lat_deg == Approx(52.6).margin(0.01));
        CHECK(mark.place.lon_deg == Approx(2.9).margin(0.03));
        CHECK(mark.figure > 0.0);
    }
}

TEST_CASE("Larger cells hold the same peas, and are surer") {
    Day day = shipped_day();
    const auto fine = day_map(day, shipped_result().machines);
    day.map_cell_m = 25.0;
    const auto coarse = day_map(day, shipped_result().machines);
    REQUIRE(fine);
    REQUIRE(coarse);
    CHECK(sums_of(*coarse).harvested_kg == Approx(sums_of(*fine).harvested_kg).margin(0.5).epsilon(0));
    CHECK(sums_of(*coarse).cut_m2 == Approx(sums_of(*fine).cut_m2).epsilon(0.01));
    const auto mean_sd_share = [](const DayMap& map) {
        double sum = 0.0;
        double count = 0.0;
        for (const MapCell& cell : map.cells) {
            if (cell.cut_m2 < 0.8 * map.cell_m * map.cell_m) continue;
            sum += cell.harvested_sd_kg / cell.harvested_kg;
            count += 1.0;
        }
        return sum / count;
    };
    CHECK(mean_sd_share(*coarse) < 0.7 * mean_sd_share(*fine));
}

TEST_CASE(
    "Where no machine has a place there is no map, and with one of two without, its peas are unplaced") {
    std::vector<MachineResult> machines = shipped_result().machines;
    for (WorkPoint& point : machines[0].work) point.placed = false;
    const auto map = day_map(shipped_day(), machines);
    REQUIRE(map);
    CHECK(map->unplaced_kg > double(machines[0].last.harvested_kg) - 1.0);
    for (MachineResult& machine : machines) {
        for (WorkPoint& point : machine.work) point.placed = false;
    }
    CHECK_FALSE(day_map(shipped_day(), machines));
}

TEST_CASE("Gaps of the yield surface hold what was cut there nine times in ten") {
    auto map = day_map(shipped_day(), shipped_result().machines);
    REQUIRE(map);
    // Every seventh cell is taken for ground that was left.
    std::vector<MapCell> left;
    const std::size_t cells = map->cells.size();
    for (std::size_t i = 0; i < cells; ++i) {
        MapCell& cell = map->cells[i];
        cell.surface_kgpm2.reset();
        if (i % 7 != 0 || cell.cut_m2 < 0.8 * map->cell_m * map->cell_m) continue;
        left.push_back(cell);
        cell.cut_m2 = 0.0;
    }
    add_yield_surface(*map);
    int filled = 0;
    int inside = 0;
    double square_sum = 0.0;
    double plain_sum = 0.0;
    double sds_sum = 0.0;  // squares of errors over their standard deviations
    for (const MapCell& cut : left) {
        for (const MapCell& cell : map->cells) {
            if (!(cell.place == cut.place) || !cell.surface_kgpm2) continue;
            const double yield_kgpm2 = cut.harvested_kg / cut.cut_m2;
            const double off = *cell.surface_kgpm2 - yield_kgpm2;
            const double sd = std::hypot(cell.surface_sd_kgpm2, cut.harvested_sd_kg / cut.cut_m2);
            ++filled;
            if (std::abs(off) < 1.645 * sd) ++inside;
            square_sum += off * off;
            sds_sum += off * off / (sd * sd);
            plain_sum += (yield_kgpm2 - 0.47) * (yield_kgpm2 - 0.47);  // the day's mean
        }
    }
    REQUIRE(filled > 60);
    CHECK(inside > 0.85 * filled);
    CHECK(std::sqrt(sds_sum / filled) > 0.5);  // nor told far less sure than it is
    CHECK(square_sum < 0.4 * plain_sum);
}

TEST_CASE("Cells told keep their own yield on the surface, and a handful of cells make none") {
    auto map = day_map(shipped_day(), shipped_result().machines);
    REQUIRE(map);
    for (const MapCell& cell : map->cells) {
        if (!cell.told(map->cell_m)) continue;
        REQUIRE(cell.surface_kgpm2);
        CHECK(*cell.surface_kgpm2 == Approx(cell.harvested_kg / cell.cut_m2));
        CHECK(cell.surface_sd_kgpm2 == Approx(cell.harvested_sd_kg / cell.cut_m2));
    }
    map->cells.resize(20);
    for (MapCell& cell : map->cells) cell.surface_kgpm2.reset();
    add_yield_surface(*map);
    CHECK(map->cells.size() == 20);
    for (const MapCell& cell : map->cells) CHECK_FALSE(cell.surface_kgpm2);
}
