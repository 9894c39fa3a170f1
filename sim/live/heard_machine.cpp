#include "live/heard_machine.hpp"

#include <fcntl.h>
#include <unistd.h>

namespace podrate::sim {
namespace {

Machine machine_of_day(const Day& day, const std::string& folder, const std::string& id) {
    if (id.empty() && day.machines.size() == 1) return day.machines.front();
    std::string ids;
    for (const Machine& machine : day.machines) {
        if (machine.id == id) return machine;
        ids += (ids.empty() ? "" : ", ") + machine.id;
    }
    throw RefusedInput({folder, 0, id.empty() ? "has several machines" : "has no machine '" + id + "'",
                        "name one by --machine: " + ids});
}

}  // namespace

HeardMachine heard_machine(const std::string& day, const std::string& machine, double width_m) {
    HeardMachine heard;
    if (!day.empty()) {
        const Day told = read_day(day);
        heard.machine = machine_of_day(told, day, machine);
        heard.time_zone = told.time_zone;
        return heard;
    }
    if (!(width_m >= 0.5 && width_m <= 12.0)) {
        throw RefusedInput({"listen", 0, "the working width is not known",
                            "add --width with the width in metres, 0.5 to 12, or --day with a day's folder"});
    }
    heard.machine.parameters.width_m = static_cast<Real>(width_m);
    return heard;
}

void check_standard_input() {
    if (fcntl(STDIN_FILENO, F_GETFD) >= 0) return;
    throw RefusedInput(
        {"standard input", 0, "is closed", "pipe candump's text in: candump -L can0 | podrate listen -"});
}

}  // namespace podrate::sim
