// The alarms of a replay, as they came and went.
#pragma once

#include <string>
#include <vector>

#include "podrate/alarm/alarm_panel.hpp"
#include "replay/sink.hpp"

namespace podrate::sim {

struct AlarmEvent {
    AlarmId alarm = AlarmId::loss_high;
    TimeUs start_us = 0;
    TimeUs end_us = 0;  // of the log where it was still there
};

// Makes events of the bits that AlarmPanel::shown() gives.
class AlarmEvents {
  public:
    void see(TimeUs now_us, std::uint16_t shown) {
        if (shown != shown_) change(now_us, shown);
    }
    void end(TimeUs last_us);
    // In order of their beginning.
    [[nodiscard]] const std::vector<AlarmEvent>& events() const { return events_; }

  private:
    void change(TimeUs now_us, std::uint16_t shown);
    std::vector<AlarmEvent> events_;
    std::size_t open_[kAlarms] = {};  // place in events_ of those that last
    std::uint16_t shown_ = 0;
};

class AlarmLog : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    void finish() override { events_.end(last_us_); }
    [[nodiscard]] const std::vector<AlarmEvent>& events() const { return events_.events(); }

  private:
    AlarmEvents events_;
    TimeUs last_us_ = 0;
};

// "loss_high|hopper_full|weight_fault|weight_stuck": alarms, then what lies behind a sensor's.
std::string alarm_names(std::uint16_t alarms, std::uint8_t faults);

}  // namespace podrate::sim
