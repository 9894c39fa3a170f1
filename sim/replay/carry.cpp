#include "replay/carry.hpp"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

namespace podrate::sim {
namespace {

using Json = nlohmann::ordered_json;

struct MemoryKey {
    const char* name;
    Real LossMemory::*member;
    double most;  // in size
};

// Far beyond what a day can teach; a file with more is damaged.
constexpr MemoryKey kMemoryKeys[] = {
    {"level", &LossMemory::level, 5.0},
    {"level_variance", &LossMemory::level_variance, 25.0},
    {"ln_picking", &LossMemory::ln_picking, 8.0},
    {"ln_picking_variance", &LossMemory::ln_picking_variance, 25.0},
    {"level_with_picking", &LossMemory::level_with_picking, 25.0},
};

LossMemory memory_of(const Json& machine) {
    LossMemory memory;
    memory.time_us = static_cast<TimeUs>(std::llround(machine.at("unix_s").get<double>() * 1e6));
    for (const MemoryKey& key : kMemoryKeys) {
        const double value = machine.at(key.name).get<double>();
        if (!(std::abs(value) <= key.most)) throw std::out_of_range(key.name);
        memory.*key.member = static_cast<Real>(value);
    }
    if (memory.level_variance < Real(0) || memory.ln_picking_variance < Real(0))
        throw std::out_of_range("variance");
    return memory;
}

}  // namespace

std::string carry_json(const DayResult& result) {
    Json machines = Json::array();
    for (const MachineResult& machine : result.machines) {
        if (!machine.usable) continue;
        Json json = {{"id", machine.id}, {"unix_s", static_cast<double>(machine.loss_memory.time_us) / 1e6}};
        for (const MemoryKey& key : kMemoryKeys)
            json[key.name] = static_cast<double>(machine.loss_memory.*key.member);
        machines.push_back(json);
    }
    return Json({{"machines", machines}}).dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

void take_carried(const std::filesystem::path& results, Day& day) {
    const std::filesystem::path file = results / "carry.json";
    std::ifstream stream(file, std::ios::binary);
    if (!stream) {
        throw RefusedInput(
            {file.string(), 0, "is missing", "give the results folder of an earlier day's replay"});
    }
    try {
        const Json json = Json::parse(stream);
        for (const Json& carried : json.at("machines")) {
            for (Machine& machine : day.machines) {
                if (machine.id == carried.at("id").get<std::string>()) machine.carried = memory_of(carried);
            }
        }
    } catch (const std::exception& error) {
        throw RefusedInput({file.string(), 0, std::string("is damaged: ") + error.what(),
                            "replay the earlier day anew, or leave --after out"});
    }
}

}  // namespace podrate::sim
