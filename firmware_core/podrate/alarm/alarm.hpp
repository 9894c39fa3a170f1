// One alarm: when a value is told, and for how long. States as in ISA-18.2 / IEC 62682, without their
// out-of-service state.
#pragma once

#include <cstdint>

#include "podrate/alarm/choices.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

enum class AlarmPriority : std::uint8_t { low, medium, high };

enum class AlarmState : std::uint8_t {
    normal,
    unacknowledged,           // the condition is there
    acknowledged,             // ... and has been acknowledged
    returned_unacknowledged,  // it has gone, but the alarm is latched and was not acknowledged
    shelved,                  // put aside by hand for a time, whatever lies below
    suppressed,               // by design: the work state makes it meaningless. Goes before shelved
};

// Limit and deadband in the unit of the value judged.
struct AlarmLimits {
    Real limit = Real(0);
    Real deadband = Real(0);     // the value is back only so far inside the limit; 0 or more
    Real on_delay_s = Real(0);   // s past the limit without a break until the condition is there; 0 to 3600
    Real off_delay_s = Real(0);  // s back inside without a break until it has gone; 0 to 3600
    bool high = true;            // true: alarm above the limit; false: below
    bool latched = false;        // stays until acknowledged after the condition has gone
    AlarmPriority priority = AlarmPriority::low;
};

class Alarm {
  public:
    // Delays outside 0 to 3600 s and a deadband below 0 are taken as the nearest that is allowed.
    explicit Alarm(const AlarmLimits& limits = AlarmLimits{});

    // Judges one value at `now_us`, at any pace; times do not go back (one that does counts as no time).
    // A delay runs from one call to the next where both are known and on the same side. Between calls more
    // than 10 s apart 10 s of it run, since nobody saw the rest. A delay of 0 acts at once.
    // known: false where the value cannot be judged (NaN never can). The condition then stays as it is, since
    // not seeing is no reason to raise or to end an alarm; a delay that runs stands still: what was seen
    // counts, what was not does not.
    // suppressed: the condition is taken as gone and delays begin afresh, so that an alarm after it rests on
    // what came after it. A latched one that was not acknowledged comes back.
    void judge(TimeUs now_us, Real value, bool known, bool suppressed);

    // Acknowledges what is shown; does nothing where nothing is, since nobody can have seen it.
    void acknowledge();
    // Not shown for `for_s` s, at most 43200; ends at the first judge() after that. Anew: from now. Judging
    // goes on below. Does nothing where for_s is not above 0.
    void shelve(TimeUs now_us, Real for_s);
    void unshelve() { shelved_ = false; }
    // Until when it is put aside; 0 where it is not.
    [[nodiscard]] TimeUs shelved_until_us() const { return shelved_ ? shelved_until_us_ : 0; }

    [[nodiscard]] AlarmState state() const;
    // The condition is there, shown or not.
    [[nodiscard]] bool active() const { return active_; }
    // The condition is there and was acknowledged.
    [[nodiscard]] bool acknowledged() const { return active_ && !unacknowledged_; }
    // To be annunciated: active or latched, and neither shelved nor suppressed.
    [[nodiscard]] bool shown() const;
    // When it last became active, on-delay included; 0 where it never did.
    [[nodiscard]] TimeUs since_us() const { return activated_us_; }
    // How many times it became active, shown or not.
    [[nodiscard]] std::uint32_t activations() const { return activations_; }
    // From the third activation within a minute until a minute has passed without one.
    [[nodiscard]] bool chattering() const { return chattering_; }
    // How many times it began to chatter.
    [[nodiscard]] std::uint32_t chatter_count() const { return chatter_count_; }
    [[nodiscard]] const AlarmLimits& limits() const { return limits_; }

  private:
    void end_what_is_over(TimeUs now_us);
    [[nodiscard]] bool speaks_against(Real value) const;
    void activate(TimeUs now_us);
    void let_go();

    AlarmLimits limits_;
    std::uint32_t timed_us_ = 0;  // how much of a delay has run
    bool active_ = false;
    bool unacknowledged_ = false;  // active or latched
    bool suppressed_ = false;
    bool shelved_ = false;
    bool chattering_ = false;
    bool seen_ = false;    // the value of the call before was known
    bool timing_ = false;  // a delay runs or stands still
    TimeUs judged_us_ = 0;
    TimeUs shelved_until_us_ = 0;
    TimeUs activated_us_ = 0;
    // Before that, newest first, held at an hour: only a minute counts.
    std::uint32_t activated_before_us_[choices::alarm::kChatterActivations - 1] = {};
    std::uint32_t activations_ = 0;
    std::uint32_t chatter_count_ = 0;
};

}  // namespace podrate
