#include "podrate/weight/tilt_watch.hpp"

#include "podrate/choices.hpp"

namespace podrate {

using namespace choices::tilt;

void TiltWatch::see(const Sample& tilt, bool moving) {
    const float roll_deg = tilt.count > 1 ? tilt.value[1] : 0.0F;
    const bool same = any_ && tilt.value[0] == pitch_deg_ && roll_deg == roll_deg_;
    if (!same) {
        same_moving_us_ = 0;
        same_ = 0;
    } else if (moving) {
        same_moving_us_ += tilt.time_us - seen_us_;
        if (same_ < kSameReadings) ++same_;
    }
    any_ = true;
    pitch_deg_ = tilt.value[0];
    roll_deg_ = roll_deg;
    seen_us_ = tilt.time_us;
}

bool TiltWatch::dead(TimeUs now_us) const {
    if (!any_) return false;
    return now_us - seen_us_ > kSilentUs || (same_ >= kSameReadings && same_moving_us_ > kDeadUs);
}

}  // namespace podrate
