// The estimator: feed it samples as they come, read what it makes of them.
#pragma once

#include "podrate/advice/advisor.hpp"
#include "podrate/alarm/alarm_panel.hpp"
#include "podrate/alarm/blockage_watch.hpp"
#include "podrate/estimate.hpp"
#include "podrate/filter/delay_line.hpp"
#include "podrate/filter/flow_filter.hpp"
#include "podrate/load.hpp"
#include "podrate/loss/hit_blocks.hpp"
#include "podrate/loss/loss_book.hpp"
#include "podrate/loss/loss_excess.hpp"
#include "podrate/loss/loss_knowledge.hpp"
#include "podrate/loss/passed_places.hpp"
#include "podrate/parameters.hpp"
#include "podrate/retained/fresh_weighing.hpp"
#include "podrate/retained/retained_state.hpp"
#include "podrate/sample.hpp"
#include "podrate/weight/conditioning.hpp"
#include "podrate/weight/noise_follower.hpp"
#include "podrate/weight/tilt_watch.hpp"
#include "podrate/work/load_keeper.hpp"
#include "podrate/work/look_back.hpp"
#include "podrate/work/pause_watch.hpp"
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

    // Time passes without a sample, so that silent sensors are noticed. taken or time_back.
    FeedResult step(TimeUs now_us);

    // The state of knowledge at the newest sample.
    [[nodiscard]] Estimate read() const;
    // Brings the cheap half up to date: state, faults, alarms, masses, flow, speed, area, the load. What is
    // said of yield, loss, advice and the way to a full hopper is left as it stands in `estimate`.
    void read_weighed(Estimate& estimate) const;

    // The newest load closed; call after feed() when load_count() has grown.
    [[nodiscard]] const Load& last_load() const { return loads_.last(); }
    [[nodiscard]] std::uint32_t load_count() const { return loads_.last().number; }

    [[nodiscard]] const FlowFilter& filter() const { return filter_; }

    // Alarms, to read, and to acknowledge, shelve or unshelve.
    [[nodiscard]] const AlarmPanel& alarms() const { return alarms_; }
    void acknowledge(AlarmId alarm) { alarms_.alarm(alarm).acknowledge(); }
    void shelve(AlarmId alarm, Real for_s) { alarms_.alarm(alarm).shelve(now_us_, for_s); }
    void unshelve(AlarmId alarm) { alarms_.alarm(alarm).unshelve(); }

    // When they were last judged; 0: never yet. And what they would look at now: right after a feed() or
    // step() that judged them, what they did look at.
    [[nodiscard]] TimeUs alarms_judged_us() const { return alarms_us_; }
    [[nodiscard]] AlarmScene alarm_scene() const;

    [[nodiscard]] const Advice& advice() const { return advisor_.advice(); }

    // The newest pause in standing crop that has ended; call where pause_news() has changed.
    [[nodiscard]] const Pause& last_pause() const { return pauses_.last(); }
    [[nodiscard]] std::uint32_t pause_news() const { return pause_news_; }

    // What was lost since the run began, by what is known of the loss now. Dearer than read(): for a page,
    // not for each sample.
    [[nodiscard]] LossSoFar loss_so_far() const;
    [[nodiscard]] const LossBook& loss_book() const { return loss_book_; }

    // What this run has taught of the loss, and what an earlier one has: it counts for less with each day
    // that has passed. Call begin_with() before the first sample, with the time at which the run begins.
    [[nodiscard]] LossMemory loss_memory() const;
    void begin_with(const LossMemory& memory, TimeUs now_us);

    // What must outlast a power cut, and how a new estimator takes it up: before its first sample, `now_us`
    // being the time then, on a time line that has gone on from the state's. The cut counts as an outage: the
    // hopper is weighed afresh. As before or heavier, the load goes on and what came counts once; emptied,
    // the load is closed. Crop cut meanwhile is missing in the area. Not kept: trays' places, what alarms
    // stand, the work state, a pause that goes on.
    // save() is false, and `state` untouched, before the first weight: there is nothing to keep.
    bool save(RetainedState& state) const;
    ResumeResult resume(const RetainedState& state, TimeUs now_us, Resume how = Resume::go_on);

  private:
    static constexpr TimeUs kEverUs = -kLatestUs;
    void take_tray(const Sample& sample, const PassedPlace& place);
    void judge_alarms();
    void look_for_advice();
    void watch_pause();
    [[nodiscard]] Real flow_due() const;
    [[nodiscard]] Real answered_m2ps(TimeUs cut_us) const;
    // What is believed of the loss here, the sensor's word included.
    [[nodiscard]] LossBelief loss_here(Real area_rate_m2ps) const;
    void read_loss(Real area_rate_m2ps, Estimate& e) const;
    [[nodiscard]] Real ln_excess_at(Real area_rate_m2ps) const;
    void listen(TimeUs from_us, TimeUs to_us);
    void note_passed(const Intake& intake, const Passage& passage, TimeUs cut_us);
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
    void resume_totals(const RetainedState& state, TimeUs now_us);
    void weigh_after_cut(TimeUs time_us, Real weight_kg);
    void judge_state();
    [[nodiscard]] bool shaking() const;
    [[nodiscard]] std::uint8_t faults_now() const;
    [[nodiscard]] Real mass_kg() const { return filter_.belief().mean(FlowFilter::mass); }
    [[nodiscard]] Real mass_variance() const {
        return filter_.belief().covariance(FlowFilter::mass, FlowFilter::mass) + weight_.cell_doubt_kg2();
    }

    // Of the parameters, what is asked for after the beginning.
    struct Kept {
        explicit Kept(const Parameters& p)
            : width_m(p.width_m),
              hopper_capacity_kg(p.hopper_capacity_kg),
              outage_s(p.outage_s),
              wanted_rate_kgps(p.wanted_rate_kgps),
              haulm_ratio(p.haulm_ratio),
              crop_patch_m(p.crop_patch_m) {}
        Real width_m;
        Real hopper_capacity_kg;
        Real outage_s;
        Real wanted_rate_kgps;
        Real haulm_ratio;
        Real crop_patch_m;
    };
    struct Place {
        std::int32_t lat_e7 = 0;
        std::int32_t lon_e7 = 0;
        bool place_known = false;
    };

    Kept parameters_;
    WeightConditioner weight_;
    NoiseFollower noise_;
    Swath swath_;
    FlowFilter filter_;
    LossBook loss_book_;
    LossKnowledge knowledge_;
    PassedPlaces places_;
    HitBlocks hits_;
    LossExcess excess_;
    AlarmPanel alarms_;
    BlockageWatch blockage_;
    TiltWatch tilt_;
    Advisor advisor_;
    PauseWatch pauses_;
    std::uint32_t pause_news_ = 0;
    Real ahead_kgpm2_ = Real(0);         // yield of the mean crop at the speed last worked at
    math::CompensatedSum<Real> due_kg_;  // that the area cut lets expect, at the crop's mean
    TimeUs alarms_us_ = 0;
    bool advice_waits_ = false;
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
    Place place_;                 // where the machine is
    bool power_was_cut_ = false;  // and the hopper has not been weighed since
    FreshWeighing fresh_;
    TimeUs swath_known_us_ = kEverUs;  // what was cut before that nobody saw
};

}  // namespace podrate
