// The estimator: feed it samples as they come, read what it makes of them.
#pragma once

#include "podrate/estimate.hpp"
#include "podrate/filter/delay_line.hpp"
#include "podrate/filter/flow_filter.hpp"
#include "podrate/filter/loss_outlook.hpp"
#include "podrate/load.hpp"
#include "podrate/parameters.hpp"
#include "podrate/sample.hpp"
#include "podrate/weight/conditioning.hpp"
#include "podrate/weight/noise_follower.hpp"
#include "podrate/work/load_keeper.hpp"
#include "podrate/work/look_back.hpp"
#include "podrate/work/state_judge.hpp"
#include "podrate/work/surprise_watch.hpp"
#include "podrate/work/swath.hpp"
#include "podrate/work/tip_watch.hpp"

namespace podrate {

// One machine. No heap, no clock: all it knows came in as samples and parameters. Copyable; a copy goes on
// alone.
class Estimator {
  public:
    // Parameters must be valid (first_invalid() == nullptr).
    explicit Estimator(const Parameters& parameters);

    // Takes one sample, or says why not; a refused sample changes nothing.
    FeedResult feed(const Sample& sample);

    // The state of knowledge at the newest sample.
    [[nodiscard]] Estimate read() const;

    // The newest load closed; call after feed() when load_count() has grown.
    [[nodiscard]] const Load& last_load() const { return loads_.last(); }
    [[nodiscard]] std::uint32_t load_count() const { return loads_.last().number; }

    [[nodiscard]] const FlowFilter& filter() const { return filter_; }

  private:
    void take_weight(const Sample& sample);
    void take_speed(const Sample& sample);
    void doubt_silence(TimeUs time_us, Real silent_s);
    void unlearn_stuck(TimeUs time_us);
    [[nodiscard]] bool at_end_of_scale(Real weight_kg);
    [[nodiscard]] Real flow_expected() const;
    void begin(TimeUs time_us, Real weight_kg);
    void predict_to(TimeUs time_us);
    void predict_step(TimeUs to_us);
    void follow(TimeUs time_us, Real weight_kg);
    void take_verdict(SurpriseWatch::Verdict verdict, TimeUs time_us, Real weight_kg, Real spread_kg2);
    void take_reading(TimeUs time_us, Real weight_kg, Real spread_kg2);
    void settle_tip(TimeUs time_us);
    void take_unseen_tip(TimeUs time_us, Real doubt_kg);
    void doubt_intake(TimeUs time_us);
    void watch_empty_drum(TimeUs time_us);
    void place_last_load();
    void take_zero(TimeUs time_us);
    void resume_after_outage(TimeUs time_us, Real weight_kg);
    void judge_state();
    [[nodiscard]] bool shaking() const;
    [[nodiscard]] std::uint8_t faults_now() const;
    [[nodiscard]] Real mass_kg() const { return filter_.belief().mean(FlowFilter::mass); }
    [[nodiscard]] Real mass_variance() const {
        return filter_.belief().covariance(FlowFilter::mass, FlowFilter::mass) + weight_.cell_doubt_kg2();
    }

    Parameters parameters_;
    WeightConditioner weight_;
    NoiseFollower noise_;
    Swath swath_;
    FlowFilter filter_;
    LossOutlook outlook_;
    TipWatch tips_;
    SurpriseWatch surprise_;
    LoadKeeper loads_;
    StateJudge judge_;
    LookBack look_back_;
    RunningTotals totals_;

    bool any_sample_ = false;
    bool started_ = false;
    TimeUs now_us_ = 0;     // newest sample of any kind
    TimeUs filter_us_ = 0;  // where the filter stands
    TimeUs weight_us_ = 0;  // newest weight used
    math::CompensatedSum<Real> area_at_weight_;
    TimeUs intake_doubted_until_us_ = 0;
    bool speed_doubted_ = false;  // ... because peas came while the speed said standing
    TimeUs steady_us_ = 0;        // how long crop has come without a break
    TimeUs idle_us_ = 0;          // how long the drum has been told of no crop
    bool drum_empty_ = false;
    Real empty_mass_kg_ = Real(0);
    bool held_ = false;          // the newest weights said nothing: stuck, or at the end of the scale
    Real ceiling_kg_ = Real(0);  // where the scale seems to end; 0: nowhere
    TimeUs jump_us_ = 0;
    bool resumed_ = false;  // after an outage
    TimeUs resumed_us_ = 0;
    bool jumped_ = false;
    Load place_;  // only its place counts: where the machine is
};

}  // namespace podrate
