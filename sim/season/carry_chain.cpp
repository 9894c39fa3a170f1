#include "season/carry_chain.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace podrate::sim {

std::string merged_carry(const std::string& before, const std::string& later) {
    using Json = nlohmann::ordered_json;
    if (before.empty()) return later;
    Json merged = Json::parse(later);
    Json& machines = merged.at("machines");
    const Json earlier = Json::parse(before);
    for (const Json& machine : earlier.at("machines")) {
        const bool newer = std::any_of(machines.begin(), machines.end(),
                                       [&](const Json& m) { return m.at("id") == machine.at("id"); });
        if (!newer) machines.push_back(machine);
    }
    return merged.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace podrate::sim
