// From the controller's own time, which never jumps, to UTC, which may.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate {

// From `from_us` on UTC runs beside the controller's time, and was `utc_us` then.
struct ClockPiece {
    TimeUs from_us = 0;
    TimeUs utc_us = 0;
};

// What outlasts a power cut: the newest last.
struct ClockMemory {
    static constexpr int kMost = 4;
    ClockPiece pieces[kMost];
    std::uint8_t count = 0;
};

// The estimator runs on the controller's time and knows no other. UTC, as a satellite receiver tells it, is
// remembered in pieces: small differences are followed, a step (a clock set right, a leap second) begins a
// new piece once three tellings agree, and times before it keep the piece they belong to. So a load that
// began before a step and ended after it has both its times right, and its span by the controller.
class ClockBridge {
  public:
    // now_us: where the controller's time begins, or goes on after a power cut.
    explicit ClockBridge(TimeUs now_us = 0) : session_us_(now_us) {}

    // What was known before a power cut; times since then wait until UTC is told again.
    void take_up(const ClockMemory& memory);

    // At `now_us` of the controller's time UTC is `utc_us`, leap seconds counted as POSIX does. Only what the
    // receiver marks as valid. False, and nothing done, where UTC is before 2000 or a time is beyond
    // kLatestUs.
    bool told(TimeUs now_us, TimeUs utc_us);

    // UTC of a time of the controller; false where it is not known (yet). Before the oldest piece kept that
    // one counts.
    bool utc_of(TimeUs time_us, TimeUs& utc_us) const;
    // And back: the newest time of the controller with that UTC; false where nothing is known.
    bool time_of(TimeUs utc_us, TimeUs& time_us) const;

    [[nodiscard]] const ClockMemory& memory() const { return memory_; }
    // UTC has been told since the last power-up.
    [[nodiscard]] bool known() const { return known_; }

  private:
    void begin_piece(TimeUs from_us, TimeUs utc_us);
    ClockMemory memory_;
    TimeUs session_us_;
    bool known_ = false;
    int waiting_ = 0;          // tellings of a step that agree
    TimeUs step_from_us_ = 0;  // the first of them
    TimeUs step_utc_us_ = 0;
};

}  // namespace podrate
