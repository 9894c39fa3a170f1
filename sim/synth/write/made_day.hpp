// Writes a day that has been made: logs, truth and the small files.
#pragma once

#include <filesystem>
#include <vector>

#include "synth/machine/gang.hpp"
#include "synth/machine/viner_works.hpp"
#include "synth/write/day_files.hpp"
#include "synth/write/machine_record.hpp"

namespace podrate::sim {

// By the order of Scenario::machines.
struct MadeDay {
    std::vector<const VinerWorks*> works;
    std::vector<const MachineRecord*> records;
    std::vector<LaidTray> trays;
};

// Makes the folder where it is missing. Throws RefusedInput where a file can't be written.
void write_made_day(const Scenario& scenario, const Gang& gang, const MadeDay& made,
                    const std::filesystem::path& out);

}  // namespace podrate::sim
