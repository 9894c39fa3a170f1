// The swath: speed and reel turned into area and distance, now and a dead time ago.
#pragma once

#include "podrate/filter/delay_line.hpp"
#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"
#include "podrate/work/slip_watch.hpp"
#include "podrate/work/state_judge.hpp"

namespace podrate {

class Swath {
  public:
    explicit Swath(const Parameters& parameters);

    // told_mps: as the machine tells it; what the places passed say about slip is taken off it.
    void set_speed(TimeUs time_us, Real told_mps);
    void set_reel(TimeUs time_us, bool on);
    void set_heading(TimeUs time_us, Real heading_deg);
    // WGS 84, 1e-7 degrees.
    void set_place(std::int32_t lat_e7, std::int32_t lon_e7);

    // Fills the delay line up to `time_us` at the newest speed, as long as that may be held.
    void advance(TimeUs time_us);

    // Takes it that the machine has worked at its present speed for the last `span_us`, as far as the drum is
    // concerned; the area is not counted. False, and nothing assumed, where it does not take crop in.
    bool assume_worked(TimeUs span_us);

    [[nodiscard]] const DelayLine& line() const { return line_; }
    [[nodiscard]] bool speed_known(TimeUs time_us) const;
    [[nodiscard]] bool moving() const { return moving_; }
    [[nodiscard]] bool taking_in() const { return intake_.taking_in(speed_mps_); }
    [[nodiscard]] bool reel_known() const { return intake_.reel_known(); }
    [[nodiscard]] Real speed_mps() const { return speed_mps_; }
    // Speed while harvesting, smoothed over half a minute; zero until any is known.
    [[nodiscard]] Real usual_speed_mps() const { return usual_speed_mps_; }
    // Area rate now, m2/s.
    [[nodiscard]] Real area_rate_m2ps() const;

    // Over a power cut.
    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from);

    // Area harvested since this was last called, m2.
    Real take_area();

  private:
    void fill(TimeUs to_us, Real mean_speed_mps);

    IntakeJudge intake_;
    SlipWatch slip_;
    DelayLine line_;
    Real width_m_;
    Real standing_speed_mps_;
    TimeUs hold_us_;
    bool any_speed_ = false;
    bool moving_ = false;
    TimeUs speed_us_ = 0;   // newest speed sample
    TimeUs filled_us_ = 0;  // how far the delay line is filled
    Real speed_mps_ = Real(0);
    Real usual_speed_mps_ = Real(0);
    Real new_area_m2_ = Real(0);
};

}  // namespace podrate
