#include "maps/map_marks.hpp"

#include <algorithm>

#include "hours/stop_list.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kPlaceHoldsUs = 2 * kSecondUs;

MapMark mark_of(MarkKind kind, const std::string& machine, LatLon place, TimeUs start_us, TimeUs end_us) {
    MapMark mark;
    mark.kind = kind;
    mark.machine = machine;
    mark.place = place;
    mark.start_us = start_us;
    mark.end_us = end_us;
    return mark;
}

LatLon place_of(std::int32_t lat_e7, std::int32_t lon_e7) {
    return {1e-7 * lat_e7, 1e-7 * lon_e7};
}

void add_tips(const MachineResult& machine, std::vector<MapMark>& marks) {
    for (const Load& load : machine.loads) {
        if (!load.place_known) continue;
        MapMark mark = mark_of(MarkKind::tip, machine.id, place_of(load.lat_e7, load.lon_e7), load.end_us,
                               load.closed_us);
        mark.figure = static_cast<double>(load.net_kg);
        mark.figure_sd = static_cast<double>(load.net_sd_kg);
        marks.push_back(mark);
    }
}

void add_stops(const MachineResult& machine, double least_s, std::vector<MapMark>& marks) {
    for (const Stop& stop : stops_of(machine.id, machine.stretches, least_s)) {
        const Stretch& stretch = stop.stretch;
        if (!stretch.place_known) continue;
        MapMark mark = mark_of(MarkKind::stop, machine.id, stretch.place, stretch.start_us, stretch.end_us);
        mark.figure = stretch.seconds();
        mark.words = name_of(stretch.kind);
        marks.push_back(mark);
    }
}

void add_heaps(const MachineResult& machine, std::vector<MapMark>& marks) {
    for (const Pause& pause : machine.pauses) {
        if (!pause.place_known) continue;
        MapMark mark = mark_of(MarkKind::heap, machine.id, place_of(pause.lat_e7, pause.lon_e7),
                               pause.start_us, pause.end_us);
        mark.figure = static_cast<double>(pause.heap_kg);
        marks.push_back(mark);
    }
}

// Where the machine was when it passed the tray.
void add_trays(const Machine& told, const MachineResult& machine, std::vector<MapMark>& marks) {
    const std::vector<WorkPoint>& points = machine.work;
    for (const TrayCheck& check : told.trays) {
        const auto at_us = static_cast<TimeUs>(check.unix_s * 1e6);
        auto point = std::lower_bound(points.begin(), points.end(), at_us,
                                      [](const WorkPoint& p, TimeUs time_us) { return p.time_us < time_us; });
        while (point != points.end() && !point->placed && point->time_us <= at_us + kPlaceHoldsUs) ++point;
        if (point == points.end() || !point->placed || point->time_us > at_us + kPlaceHoldsUs) continue;
        MapMark mark = mark_of(MarkKind::tray_check, machine.id, point->place(), at_us, at_us);
        mark.figure = check.kg_per_ha;
        mark.figure_sd = check.kg_per_ha * check.sd_share;
        marks.push_back(mark);
    }
}

}  // namespace

const char* name_of(MarkKind kind) {
    static constexpr const char* kNames[kMarkKinds] = {"tip", "stop", "heap", "tray_check"};
    return kNames[static_cast<int>(kind)];
}

std::vector<MapMark> map_marks(const Day& day, const std::vector<MachineResult>& machines) {
    std::vector<MapMark> marks;
    for (std::size_t m = 0; m < machines.size(); ++m) {
        if (!machines[m].usable) continue;
        add_tips(machines[m], marks);
        add_stops(machines[m], day.hours.stop_least_s, marks);
        add_heaps(machines[m], marks);
        add_trays(day.machines[m], machines[m], marks);
    }
    return marks;
}

}  // namespace podrate::sim
