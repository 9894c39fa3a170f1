// A task's time logs.
#pragma once

#include <string>
#include <vector>

#include "report/taskdata/tasks.hpp"

namespace podrate::sim {

struct TaskLog {
    std::string header;  // an XML document
    std::string bytes;   // records; what has not changed since the one before is left out
};

// One log of the seconds with a place and one of those without, where there are any: a record's layout is
// told once for a whole log.
std::vector<TaskLog> task_logs(const FieldTask& task, const std::vector<TaskSecond>& track, double width_m);

}  // namespace podrate::sim
