// What a machine's day comes to, as figures that stand side by side.
#pragma once

#include <string>

#include "replay/machine_replay.hpp"
#include "text/text.hpp"

namespace podrate::ui {

struct DaySum {
    std::string name;       // the machine's
    std::string harvested;  // "41.2 t ± 0.2"
    std::string area;
    std::string yield;
    std::string rate;     // while it harvests
    std::string lost;     // "6.1 % (3.9 to 9.0)"
    std::string refusal;  // why there is nothing, or empty
};

DaySum sum_of(const sim::MachineResult& machine, const Speech& say);

}  // namespace podrate::ui
