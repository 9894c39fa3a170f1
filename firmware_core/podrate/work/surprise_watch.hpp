// What to make of a weight far from where the filter expects it.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

class SurpriseWatch {
  public:
    enum class Verdict : unsigned char {
        trust,   // near enough: use the reading
        wait,    // far off: do not use it yet
        jumped,  // stays far off after a sudden step: the reading moved, not the peas
        crept,   // rose there steadily: peas come that speed and reel do not account for
        filled,  // far higher after a gap in the data: peas came that nobody saw
        tipped,  // far lower after a gap in the data: a tip fell into the gap
    };

    explicit SurpriseWatch(const Parameters& parameters);

    // One reading. since_us: time since the reading before it; residual: measured less expected.
    Verdict judge(TimeUs time_us, TimeUs since_us, Real residual_kg, Real residual_sd_kg);

    // The step was faster than peas can pour, so the sensor has dropped out; nothing may be read into the
    // weight.
    [[nodiscard]] bool dropped_out() const { return surprised_ && impossible_; }
    [[nodiscard]] bool surprised() const { return surprised_; }
    void reset();

  private:
    void begin(TimeUs time_us, TimeUs since_us, Real residual_kg, Real residual_sd_kg);

    Real capacity_kg_;
    Real tip_least_kg_;
    bool surprised_ = false;
    bool impossible_ = false;
    bool steady_ = false;
    bool after_gap_ = false;
    TimeUs since_time_us_ = 0;
    Real last_kg_ = Real(0);   // residual of the last reading trusted
    Real trend_kg_ = Real(0);  // residual of the readings trusted lately
};

}  // namespace podrate
