// Finds tips: the hopper's weight falling fast and far.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// Works with 1 to 50 readings a second, and down to one in 10 s as long as a tip spans three of them.
class TipWatch {
  public:
    enum class Phase : unsigned char { idle, falling, settling };
    enum class Event : unsigned char { none, began, bottom, settled };

    explicit TipWatch(const Parameters& parameters);

    // One conditioned reading. residual, residual_sd: against the filter's prediction. Returns what happened:
    // began (weight falls like a tip), bottom (it no longer falls), settled (the hopper's rest can be
    // weighed).
    Event watch(TimeUs time_us, Real weight_kg, Real residual_kg, Real residual_sd_kg);

    // Forgets everything, e.g. after an outage.
    void reset();

    [[nodiscard]] Phase phase() const { return phase_; }
    [[nodiscard]] bool falling() const { return phase_ == Phase::falling; }
    // When the fall that began was first seen.
    [[nodiscard]] TimeUs suspected_us() const { return suspected_us_; }
    // Readings since a possible fall was first seen: the filter had better not follow them yet.
    [[nodiscard]] bool suspicious() const { return suspected_; }
    // Weight, smoothed over about half a second.
    [[nodiscard]] Real smoothed_kg() const { return smoothed_kg_; }

  private:
    struct Past {
        TimeUs time_us = 0;
        Real smoothed_kg = Real(0);
    };
    void smooth(TimeUs time_us, Real weight_kg);
    [[nodiscard]] Real slope_kgps(TimeUs time_us) const;
    Event watch_idle(TimeUs time_us, Real residual_kg, Real residual_sd_kg);
    Event watch_falling(TimeUs time_us);

    static constexpr int kPasts = 4;
    Phase phase_ = Phase::idle;
    bool started_ = false;
    bool suspected_ = false;
    TimeUs last_us_ = 0;
    TimeUs suspected_us_ = 0;
    TimeUs lowest_us_ = 0;
    Real lowest_kg_ = Real(0);
    Real smoothed_kg_ = Real(0);
    Past pasts_[kPasts];  // a third of a second apart or more, newest first
    Real rate_kgps_;
};

}  // namespace podrate
