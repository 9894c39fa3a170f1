#include "podrate/alarm/alarm.hpp"

#include "podrate/math/elementary.hpp"

namespace podrate {
namespace {

using namespace choices::alarm;

constexpr TimeUs kLongestDelayUs = 3600 * kSecondUs;

// NaN gives 0.
TimeUs to_us(Real span_s, Real longest_s) {
    if (!(span_s > Real(0))) return 0;
    return static_cast<TimeUs>((span_s < longest_s ? span_s : longest_s) * Real(1e6) + Real(0.5));
}

}  // namespace

Alarm::Alarm(const AlarmLimits& limits) : limits_(limits) {
    if (!(limits_.deadband > Real(0))) limits_.deadband = Real(0);
}

// Whether the value speaks against the condition as it stands: past the limit, or back by the deadband.
bool Alarm::speaks_against(Real value) const {
    const Real over = limits_.high ? value - limits_.limit : limits_.limit - value;
    return active_ ? over <= -limits_.deadband : over > Real(0);
}

void Alarm::activate(TimeUs now_us) {
    active_ = true;
    unacknowledged_ = true;
    const TimeUs since_us = math::clamp(now_us - activated_us_, TimeUs(0), kLongestDelayUs);
    TimeUs before_us = since_us;
    for (std::uint32_t& one : activated_before_us_) {
        const TimeUs older_us = math::clamp(since_us + one, TimeUs(0), kLongestDelayUs);
        one = static_cast<std::uint32_t>(before_us);
        before_us = older_us;
    }
    activated_us_ = now_us;
    ++activations_;
    if (chattering_ || activations_ < static_cast<std::uint32_t>(kChatterActivations)) return;
    chattering_ = activated_before_us_[kChatterActivations - 2] < kChatterUs;
    if (chattering_) ++chatter_count_;
}

void Alarm::let_go() {
    active_ = false;
    unacknowledged_ = unacknowledged_ && limits_.latched;
}

void Alarm::end_what_is_over(TimeUs now_us) {
    if (now_us >= shelved_until_us_) shelved_ = false;
    if (chattering_ && now_us - activated_us_ >= kChatterUs) chattering_ = false;
}

void Alarm::judge(TimeUs now_us, Real value, bool known, bool suppressed) {
    end_what_is_over(now_us);
    const bool seen_before = seen_;
    const TimeUs passed_us = seen_before ? math::clamp(now_us - judged_us_, TimeUs(0), kCallLastsUs) : 0;
    suppressed_ = suppressed;
    seen_ = known && value == value;
    judged_us_ = now_us;
    if (suppressed) {
        if (active_) let_go();
        timing_ = false;
        return;
    }
    if (!seen_) return;
    if (!speaks_against(value)) {
        timing_ = false;
        return;
    }
    timed_us_ = timing_ ? timed_us_ + static_cast<std::uint32_t>(passed_us) : 0;
    timing_ = timed_us_ < to_us(active_ ? limits_.off_delay_s : limits_.on_delay_s, kLongestDelayS);
    if (timing_) return;
    if (active_) {
        let_go();
    } else {
        activate(now_us);
    }
}

void Alarm::acknowledge() {
    if (shown()) unacknowledged_ = false;
}

void Alarm::shelve(TimeUs now_us, Real for_s) {
    if (!(for_s > Real(0))) return;
    shelved_ = true;
    shelved_until_us_ = now_us + to_us(for_s, kLongestShelfS);
}

AlarmState Alarm::state() const {
    if (suppressed_) return AlarmState::suppressed;
    if (shelved_) return AlarmState::shelved;
    if (active_) return unacknowledged_ ? AlarmState::unacknowledged : AlarmState::acknowledged;
    return unacknowledged_ ? AlarmState::returned_unacknowledged : AlarmState::normal;
}

bool Alarm::shown() const {
    return (active_ || unacknowledged_) && !shelved_ && !suppressed_;
}

}  // namespace podrate
