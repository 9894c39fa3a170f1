// A tilt sensor that has died: it repeats to the last digit although the machine moves, or falls silent.
#pragma once

#include "podrate/sample.hpp"

namespace podrate {

class TiltWatch {
  public:
    void see(const Sample& tilt, bool moving);

    // True where it repeats while the machine moves, or has spoken once and speaks no more.
    [[nodiscard]] bool dead(TimeUs now_us) const;

  private:
    bool any_ = false;
    float pitch_deg_ = 0.0F;
    float roll_deg_ = 0.0F;
    TimeUs seen_us_ = 0;
    TimeUs same_moving_us_ = 0;  // how long it has repeated on a moving machine
    int same_ = 0;
};

}  // namespace podrate
