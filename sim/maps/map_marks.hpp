// What has a place on a map beside the yield: tips, stops, heaps of haulm, tray checks.
#pragma once

#include <string>
#include <vector>

#include "day/day.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

enum class MarkKind { tip, stop, heap, tray_check };
inline constexpr int kMarkKinds = 4;

// "tip", "stop", "heap", "tray_check"
const char* name_of(MarkKind kind);

struct MapMark {
    MarkKind kind = MarkKind::tip;
    std::string machine;
    LatLon place;
    TimeUs start_us = 0;
    TimeUs end_us = 0;
    double figure = 0.0;     // tip: net kg; stop: seconds; heap: kg of haulm; tray check: kg/ha on the ground
    double figure_sd = 0.0;  // of a tip and a tray check; else 0
    std::string words;       // of a stop, the kind of time
};

// Those whose place is known, machine by machine, kind by kind, in order of time.
std::vector<MapMark> map_marks(const Day& day, const std::vector<MachineResult>& machines);

}  // namespace podrate::sim
