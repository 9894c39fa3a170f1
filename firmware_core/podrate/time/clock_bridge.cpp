#include "podrate/time/clock_bridge.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::times;

namespace {

constexpr TimeUs kEarliestUtcUs =
    TimeUs{946684800} * kSecondUs;  // 2000-01-01: a receiver before its first fix

bool sound(TimeUs time_us) {
    return time_us >= 0 && time_us <= kLatestUs;
}

}  // namespace

bool ClockBridge::told(TimeUs now_us, TimeUs utc_us) {
    if (!sound(now_us) || utc_us < kEarliestUtcUs || !sound(utc_us) || now_us < session_us_) return false;
    if (known_) {
        ClockPiece& newest = memory_.pieces[memory_.count - 1];
        const TimeUs error_us = utc_us - (newest.utc_us + (now_us - newest.from_us));
        if (math::abs(error_us) <= kFollowedUs) {
            newest.utc_us += error_us / kFollowShare;
            waiting_ = 0;
            return true;
        }
    }
    const TimeUs against_us = utc_us - (step_utc_us_ + (now_us - step_from_us_));
    if (waiting_ == 0 || math::abs(against_us) > kFollowedUs) {
        waiting_ = 1;
        step_from_us_ = now_us;
        step_utc_us_ = utc_us;
        return true;
    }
    if (++waiting_ < kConfirmations) return true;
    waiting_ = 0;
    // The first telling after a power-up holds since then.
    const TimeUs since_us = step_from_us_ - session_us_;
    const TimeUs back_us = known_ ? 0 : since_us < step_utc_us_ ? since_us : step_utc_us_;
    begin_piece(step_from_us_ - back_us, step_utc_us_ - back_us);
    known_ = true;
    return true;
}

void ClockBridge::take_up(const ClockMemory& memory) {
    *this = ClockBridge(session_us_);
    memory_ = memory;
}

void ClockBridge::begin_piece(TimeUs from_us, TimeUs utc_us) {
    if (memory_.count == ClockMemory::kMost) {
        for (int i = 1; i < ClockMemory::kMost; ++i) memory_.pieces[i - 1] = memory_.pieces[i];
        --memory_.count;
    }
    memory_.pieces[memory_.count++] = {from_us, utc_us};
}

bool ClockBridge::utc_of(TimeUs time_us, TimeUs& utc_us) const {
    if (memory_.count == 0 || !sound(time_us) || (time_us >= session_us_ && !known_)) return false;
    int i = memory_.count - 1;
    while (i > 0 && memory_.pieces[i].from_us > time_us) --i;
    utc_us = memory_.pieces[i].utc_us + (time_us - memory_.pieces[i].from_us);
    return true;
}

bool ClockBridge::time_of(TimeUs utc_us, TimeUs& time_us) const {
    if (memory_.count == 0 || !sound(utc_us)) return false;
    int i = memory_.count - 1;
    while (i > 0 && memory_.pieces[i].utc_us > utc_us) --i;
    time_us = memory_.pieces[i].from_us + (utc_us - memory_.pieces[i].utc_us);
    return true;
}

}  // namespace podrate
