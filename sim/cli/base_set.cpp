#include "cli/base_set.hpp"

#include "live/host_clock.hpp"

namespace podrate::sim {

std::optional<ParameterSet> BaseSet::set() const {
    if (!kept) return std::nullopt;
    return kept->set;
}

BaseSet read_base(const std::string& file) {
    BaseSet base;
    base.file = file;
    if (!file.empty()) base.kept = read_parameter_set(file);
    return base;
}

SetEntry entry_now(const BaseSet& base, const std::string& machine, const std::string& own_mark,
                   const std::string& who, const std::string& note) {
    SetEntry made;
    made.note = note;
    made.who = who;
    made.unix_s = HostClock().now_us() / kSecondUs;
    made.made_from = base.kept ? std::filesystem::path(base.file).stem().string() : machine;
    made.made_from_mark = base.kept ? base.kept->mark : own_mark;
    return made;
}

}  // namespace podrate::sim
