#include "replay/alarm_log.hpp"

namespace podrate::sim {

void AlarmEvents::change(TimeUs now_us, std::uint16_t shown) {
    for (int i = 0; i < kAlarms; ++i) {
        const int bit = 1 << i;
        const bool is = (shown & bit) != 0;
        const bool was = (shown_ & bit) != 0;
        if (is && !was) {
            open_[i] = events_.size();
            events_.push_back({static_cast<AlarmId>(i), now_us, now_us});
        } else if (was && !is) {
            events_[open_[i]].end_us = now_us;
        }
    }
    shown_ = shown;
}

void AlarmEvents::end(TimeUs last_us) {
    for (int i = 0; i < kAlarms; ++i) {
        if ((shown_ & (1 << i)) != 0) events_[open_[i]].end_us = last_us;
    }
}

void AlarmLog::on_row(const LogRow& row, const Estimate& estimate) {
    last_us_ = row.time_us;
    events_.see(row.time_us, estimate.alarms);
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
