// What one machine's alarms looked at over a day, so that they can be judged anew without the estimator.
#pragma once

#include <array>
#include <vector>

#include "podrate/alarm/alarm_panel.hpp"
#include "replay/alarm_log.hpp"
#include "replay/sink.hpp"

namespace podrate::sim {

// Some 17 MB for 24 hours: five scenes a second of 40 bytes.
class AlarmTrace : public ReplaySink {
  public:
    void on_scene(const AlarmScene& scene) override { seen_.emplace_back(scene); }
    [[nodiscard]] bool asks_scenes() const override { return true; }
    void on_row(const LogRow& row, const Estimate&) override { last_us_ = row.time_us; }
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    void finish() override { seen_.shrink_to_fit(); }

    [[nodiscard]] std::size_t size() const { return seen_.size(); }
    [[nodiscard]] AlarmScene scene(std::size_t index) const { return seen_[index].scene(); }
    // Of the last row.
    [[nodiscard]] TimeUs last_us() const { return last_us_; }

  private:
    struct Seen {
        Seen() = default;
        explicit Seen(const AlarmScene& scene);
        [[nodiscard]] AlarmScene scene() const;
        TimeUs now_us = 0;
        Real loss_share, rate_share, level_share, blocking_sd, leak_kg, oldest_min;
        std::uint8_t state = 0;
        std::uint8_t flags = 0;
    };
    std::vector<Seen> seen_;
    TimeUs last_us_ = 0;
};

// The alarms that a replay with these parameters would tell: exactly those, as long as the parameters differ
// from those of the trace only in what touches alarms alone (touches_alarms_alone()).
std::vector<AlarmEvent> alarms_of(const AlarmTrace& trace, const Parameters& parameters);

// For how long each alarm could have come: its value known, and not suppressed by the work state. That one
// alarm suppresses another is left out, so that no limit changes the time.
std::array<double, kAlarms> judged_hours(const AlarmTrace& trace);

// Whether a parameter does nothing but set an alarm: then a day's trace serves all its values. A change of it
// changes the panel, and no scene.
bool touches_alarms_alone(const ParameterInfo& parameter);
// Whether it sets that alarm, whatever else it does.
bool touches_alarm(const ParameterInfo& parameter, AlarmId alarm);

}  // namespace podrate::sim
