// Whose samples are heard: a machine of a day's folder, or one of which only the width is known.
#pragma once

#include <string>

#include "day/day.hpp"

namespace podrate::sim {

struct HeardMachine {
    Machine machine;
    std::string time_zone = "Etc/UTC";
};

// day: a folder, or empty. machine: its id; may be empty where the day has one only. width_m: used without a
// day, 0.5 to 12. Throws RefusedInput where that does not tell a machine.
HeardMachine heard_machine(const std::string& day, const std::string& machine, double width_m);

// Where standard input is to be heard: before anything else is opened, which would then pass for it. Throws
// RefusedInput where it is closed.
void check_standard_input();

}  // namespace podrate::sim
