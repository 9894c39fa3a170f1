#include "day/common_keys.hpp"

#include <date/tz.h>

namespace podrate::sim {

bool is_file_name(const std::string& id) {
    if (id.empty() || id.size() > 40) return false;
    for (const char c : id) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (!letter && !(c >= '0' && c <= '9') && c != '_' && c != '-') return false;
    }
    return true;
}

std::string read_machine_id(const TomlView& machine) {
    const std::string id = machine.text("id", "\"viner_1\"");
    if (!is_file_name(id)) {
        machine.refuse(machine.need("id", ""), "id '" + id + "' can't be a file's name",
                       "use up to 40 letters, digits, _ and -");
    }
    return id;
}

std::string read_time_zone(const TomlView& top) {
    const std::string name = top.text_or("time_zone", "Etc/UTC");
    try {
        (void)date::locate_zone(name);
    } catch (const std::exception&) {
        top.refuse(top.need("time_zone", ""), "time zone '" + name + "' is not known",
                   "use an IANA name like \"Europe/London\" or \"Etc/UTC\"");
    }
    return name;
}

}  // namespace podrate::sim
