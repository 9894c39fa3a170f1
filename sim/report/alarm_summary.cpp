#include "report/alarm_summary.hpp"

#include "podrate/alarm/choices.hpp"

namespace podrate::sim {
namespace {

using choices::alarm::kChatterUs;
constexpr std::size_t kChatterCount = choices::alarm::kChatterActivations;

// Chatter lasts until the alarm has stayed away for a minute.
int chatters(const std::vector<TimeUs>& starts_us) {
    int times = 0;
    bool chattering = false;
    for (std::size_t i = 1; i < starts_us.size(); ++i) {
        if (starts_us[i] - starts_us[i - 1] > kChatterUs) chattering = false;
        if (chattering || i + 1 < kChatterCount) continue;
        if (starts_us[i] - starts_us[i + 1 - kChatterCount] > kChatterUs) continue;
        chattering = true;
        ++times;
    }
    return times;
}

}  // namespace

AlarmSums alarm_sums(const std::vector<AlarmEvent>& events) {
    AlarmSums sums;
    std::array<std::vector<TimeUs>, static_cast<std::size_t>(kAlarms)> starts_us;
    for (const AlarmEvent& event : events) {
        const auto kind = static_cast<std::size_t>(event.alarm);
        ++sums[kind].count;
        sums[kind].seconds += static_cast<double>(event.end_us - event.start_us) / 1e6;
        starts_us[kind].push_back(event.start_us);
    }
    for (std::size_t kind = 0; kind < sums.size(); ++kind) sums[kind].chatters = chatters(starts_us[kind]);
    return sums;
}

double work_seconds(const MachineResult& machine) {
    return machine.seconds(WorkState::harvesting) + machine.seconds(WorkState::turning) +
           machine.seconds(WorkState::paused_in_crop) + machine.seconds(WorkState::waiting) +
           machine.seconds(WorkState::tipping);
}

double alarms_per_10_min(const MachineResult& machine) {
    const double seconds = work_seconds(machine);
    return seconds > 0.0 ? static_cast<double>(machine.alarms.size()) * 600.0 / seconds : 0.0;
}

const char* words_for(AlarmId alarm) {
    switch (alarm) {
        case AlarmId::loss_high: return "loss above its limit";
        case AlarmId::rate_low: return "load rate below what is wanted";
        case AlarmId::hopper_nearly_full: return "hopper nearly full";
        case AlarmId::hopper_full: return "hopper full";
        case AlarmId::drum_blocking: return "drum may be blocking";
        case AlarmId::hopper_leak: return "standing hopper loses weight";
        case AlarmId::weight_fault: return "weight not to be trusted";
        case AlarmId::speed_fault: return "speed not to be trusted";
        case AlarmId::tilt_fault: return "tilt sensor silent or stuck";
        case AlarmId::peas_old: return "oldest peas too old";
    }
    return "alarm";
}

}  // namespace podrate::sim
