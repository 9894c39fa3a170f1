// All alarms of a machine, judged together.
#pragma once

#include <cstdint>

#include "podrate/alarm/alarm.hpp"
#include "podrate/parameters.hpp"
#include "podrate/work/work_state.hpp"

namespace podrate {

enum class AlarmId : std::uint8_t {
    loss_high,           // share lost
    rate_low,            // load rate below a share of the wanted one
    hopper_nearly_full,  // share of the capacity
    hopper_full,
    drum_blocking,  // sum of a CUSUM: the weight grows less than what is cut lets expect
    hopper_leak,    // kg gone from a standing hopper
    weight_fault,
    speed_fault,
    tilt_fault,
    peas_old,  // minutes since the oldest peas in the hopper were cut
};

inline constexpr int kAlarms = 10;

// "loss_high", "rate_low", ...
const char* name_of(AlarmId alarm);

// What the alarms look at, at one moment.
struct AlarmScene {
    TimeUs now_us = 0;
    WorkState state = WorkState::stopped;
    Real loss_share = Real(0);
    Real rate_share = Real(0);  // load rate over the wanted one
    bool rate_wanted = false;
    Real level_share = Real(0);
    bool level_known = true;
    Real blocking_sd = Real(0);
    Real leak_kg = Real(0);
    bool leak_watched = false;  // the drum is empty and the machine stands: nothing else moves the weight
    bool weight_fault = false;
    bool speed_fault = false;
    bool tilt_fault = false;
    Real oldest_min = Real(0);
    bool holds_peas = false;
};

class AlarmPanel {
  public:
    explicit AlarmPanel(const Parameters& parameters);

    void judge(const AlarmScene& scene);

    [[nodiscard]] const Alarm& alarm(AlarmId id) const { return alarms_[static_cast<int>(id)]; }
    [[nodiscard]] Alarm& alarm(AlarmId id) { return alarms_[static_cast<int>(id)]; }
    // Bit 1 << AlarmId of each alarm to be annunciated.
    [[nodiscard]] std::uint16_t shown() const;

  private:
    Alarm alarms_[kAlarms];
};

}  // namespace podrate
