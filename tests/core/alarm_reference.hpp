// An alarm told from its whole past: no timers, only lists that are read anew each time.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "podrate/alarm/alarm.hpp"

namespace podrate::test {

inline TimeUs us(double span_s) {
    return static_cast<TimeUs>(std::llround(span_s * 1e6));
}

class AlarmReference {
  public:
    explicit AlarmReference(const AlarmLimits& limits) : limits_(limits) {}
    void judge(TimeUs now_us, double value, bool known, bool suppressed) {
        past_.push_back({now_us, value, known && !suppressed, suppressed});
        if (suppressed) active_ = false;
        if (!past_.back().known || !against(past_.back())) return;
        if (run_us() < us(static_cast<double>(active_ ? limits_.off_delay_s : limits_.on_delay_s))) return;
        active_ = !active_;
        if (active_) activated_us_.push_back(now_us);
    }
    void acknowledge() {
        if (shown()) acknowledged_ = activated_us_.size();
    }
    void shelve(double for_s) { shelved_until_us_ = past_.back().at_us + us(for_s); }
    void unshelve() { shelved_until_us_ = 0; }

    [[nodiscard]] bool active() const { return active_; }
    [[nodiscard]] bool shown() const {
        return state() != AlarmState::normal && state() != AlarmState::shelved &&
               state() != AlarmState::suppressed;
    }
    [[nodiscard]] AlarmState state() const {
        const bool open = acknowledged_ < activated_us_.size();
        if (past_.back().suppressed) return AlarmState::suppressed;
        if (past_.back().at_us < shelved_until_us_) return AlarmState::shelved;
        if (active_) return open ? AlarmState::unacknowledged : AlarmState::acknowledged;
        return open && limits_.latched ? AlarmState::returned_unacknowledged : AlarmState::normal;
    }
    [[nodiscard]] const std::vector<TimeUs>& activated_us() const { return activated_us_; }
    // How often it began to chatter; `now` tells whether it still does.
    [[nodiscard]] std::uint32_t chatters(bool& now) const {
        const std::vector<TimeUs>& a = activated_us_;
        std::uint32_t count = 0;
        now = false;
        for (std::size_t i = 0; i < a.size(); ++i) {
            if (i > 0 && a[i] - a[i - 1] >= us(60.0)) now = false;
            if (now || i < 2 || a[i] - a[i - 2] >= us(60.0)) continue;
            now = true;
            ++count;
        }
        now = now && past_.back().at_us - a.back() < us(60.0);
        return count;
    }

  private:
    struct Shown {
        TimeUs at_us;
        double value;
        bool known;
        bool suppressed;
    };
    [[nodiscard]] bool against(const Shown& shown) const {
        const double limit = static_cast<double>(limits_.limit);
        const double inside = static_cast<double>(limits_.deadband) * (limits_.high ? 1.0 : -1.0);
        const bool past = limits_.high ? shown.value > limit : shown.value < limit;
        const bool back = limits_.high ? shown.value <= limit - inside : shown.value >= limit - inside;
        return active_ ? back : past;
    }
    // Time that the newest run of values against the condition has been seen to last.
    [[nodiscard]] TimeUs run_us() const {
        TimeUs run_us = 0;
        for (std::size_t i = past_.size() - 1; i > 0; --i) {
            const Shown& before = past_[i - 1];
            if (before.suppressed || (before.known && !against(before))) break;
            if (before.known && past_[i].known) run_us += std::min(past_[i].at_us - before.at_us, us(10.0));
        }
        return run_us;
    }

    AlarmLimits limits_;
    std::vector<Shown> past_;
    std::vector<TimeUs> activated_us_;
    std::size_t acknowledged_ = 0;  // that many of them
    bool active_ = false;
    TimeUs shelved_until_us_ = 0;
};

}  // namespace podrate::test
