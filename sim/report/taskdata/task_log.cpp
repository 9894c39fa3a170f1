#include "report/taskdata/task_log.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "report/taskdata/data_entries.hpp"
#include "report/taskdata/time_log.hpp"

namespace podrate::sim {
namespace {

std::int32_t whole(double value) {
    constexpr double kMost = std::numeric_limits<std::int32_t>::max();
    return static_cast<std::int32_t>(std::llround(std::clamp(value, -kMost, kMost)));
}

// In the order of kDataEntries.
std::array<std::int32_t, kLoggedEntries> values_of(const TaskSecond& second, double width_m) {
    return {whole(static_cast<double>(second.yield_kgpm2) * 1e6),
            whole(static_cast<double>(second.flow_kgps) * 1e6),
            whole(static_cast<double>(second.loss_share) * 1e6),
            second.state == WorkState::harvesting ? 1 : 0, whole(width_m * 1e3)};
}

std::string header_of(std::size_t machine, bool placed) {
    std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<TIM A=\"\" D=\"4\">\n";
    if (placed) text += "  <PTN A=\"\" B=\"\" D=\"\"/>\n";
    for (std::size_t i = 0; i < kLoggedEntries; ++i) {
        text += "  <DLV A=\"" + hex_ddi(kDataEntries[i]) + "\" B=\"\" C=\"" +
                element_id(machine, kDataEntries[i].element) + "\"/>\n";
    }
    return text + "</TIM>\n";
}

}  // namespace

std::vector<TaskLog> task_logs(const FieldTask& task, const std::vector<TaskSecond>& track, double width_m) {
    std::vector<TaskLog> logs;
    std::vector<LoggedValue> changed;
    for (const bool placed : {true, false}) {
        TaskLog log;
        std::array<std::int32_t, kLoggedEntries> before{};
        for (const auto& [first, end] : task.visits) {
            for (std::size_t i = first; i < end; ++i) {
                if (track[i].placed != placed) continue;
                const auto values = values_of(track[i], width_m);
                changed.clear();
                for (std::size_t v = 0; v < values.size(); ++v) {
                    if (log.bytes.empty() || values[v] != before[v])
                        changed.push_back({static_cast<std::uint8_t>(v), values[v]});
                }
                before = values;
                const LoggedPlace place{track[i].lat_e7, track[i].lon_e7};
                append_record(log.bytes, track[i].time_us, placed ? &place : nullptr, changed);
            }
        }
        if (log.bytes.empty()) continue;
        log.header = header_of(task.machine, placed);
        logs.push_back(std::move(log));
    }
    return logs;
}

}  // namespace podrate::sim
