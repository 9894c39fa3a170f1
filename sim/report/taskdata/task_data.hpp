// The day as task data of ISO 11783-10, for farm records.
#pragma once

#include <filesystem>

#include "day/day.hpp"
#include "replay/day_replay.hpp"
#include "report/taskdata/tasks.hpp"

namespace podrate::sim {

// Writes FOLDER/TASKDATA.XML and its time logs, TLG00001.xml and .bin and so on; logs of an earlier, longer
// run there are removed. A task is a machine's work in a field; what lies in no field has tasks of its own.
// `result` with its fields told (field_figures). Throws RefusedInput where a file can't be written.
void write_task_data(const std::filesystem::path& folder, const Day& day, const DayResult& result,
                     const TaskTracks& tracks);

}  // namespace podrate::sim
