#include "replay/alarm_log.hpp"

namespace podrate::sim {

void AlarmLog::on_row(const LogRow& row, const Estimate& estimate) {
    last_us_ = row.time_us;
    if (estimate.alarms == shown_) return;
    for (int i = 0; i < kAlarms; ++i) {
        const int bit = 1 << i;
        const bool is = (estimate.alarms & bit) != 0;
        const bool was = (shown_ & bit) != 0;
        if (is && !was) {
            open_[i] = events_.size();
            events_.push_back({static_cast<AlarmId>(i), row.time_us, row.time_us});
        } else if (was && !is) {
            events_[open_[i]].end_us = row.time_us;
        }
    }
    shown_ = estimate.alarms;
}

void AlarmLog::finish() {
    for (int i = 0; i < kAlarms; ++i) {
        if ((shown_ & (1 << i)) != 0) events_[open_[i]].end_us = last_us_;
    }
}

std::string alarm_names(std::uint16_t alarms, std::uint8_t faults) {
    std::string names;
    const auto add = [&names](const char* name) {
        if (!names.empty()) names += '|';
        names += name;
    };
    for (int i = 0; i < kAlarms; ++i) {
        if ((alarms & (1 << i)) != 0) add(name_of(static_cast<AlarmId>(i)));
    }
    for (int i = 0; i < kFaults; ++i) {
        if ((faults & (1 << i)) != 0) add(name_of_fault(i));
    }
    return names;
}

}  // namespace podrate::sim
