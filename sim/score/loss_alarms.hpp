// The alarm of high loss against the truth: what it missed, how late it came, how often it came for nothing.
#pragma once

#include <vector>

#include "score/alarm_spans.hpp"
#include "score/true_loss.hpp"

namespace podrate::sim {

inline constexpr double kLossEpisodeS = 30.0;  // no shorter one has to be told
inline constexpr double kNearLossS = 20.0;     // the drum's times and the alarm's own delays

// Times of true loss above the limit for more than half a minute, which are to be told; and all times with
// loss above limit less deadband, which are reason enough for an alarm.
struct LossEpisodes {
    std::vector<AlarmSpan> due;
    std::vector<AlarmSpan> reasons;
};
LossEpisodes loss_episodes(const TrueLoss& truth, double limit, double deadband);

// Of a drum that blocks the driver is told by its own alarm, which stills the loss's: what is lost meanwhile
// is not due. What it holds back looks like a loss, which is reason enough for an alarm until then. Leaves
// both sorted and joined.
void leave_to_drum(const AlarmSpan& blocked, std::vector<AlarmSpan>& due, std::vector<AlarmSpan>& reasons);

struct LossAlarmScore {
    int episodes = 0;  // of true loss above the limit for more than half a minute
    int told = 0;      // of those, by an alarm while they lasted or shortly after, see span_outcomes
    std::vector<double> delays_s;  // of those told, from the episode's beginning at the cut; 0 where it came
                                   // just before
    int alarms = 0;
    int false_alarms = 0;  // that came without one true second above limit less deadband shortly before or
                           // after
    int chattered = 0;     // alarms that were at least the third within a minute
    double harvest_h = 0.0;

    void add(const LossAlarmScore& other);
    // Of the delays; negative where there is none.
    [[nodiscard]] double median_delay_s() const;
    [[nodiscard]] double false_per_h() const { return harvest_h > 0.0 ? false_alarms / harvest_h : 0.0; }
    [[nodiscard]] double alarms_per_h() const { return harvest_h > 0.0 ? alarms / harvest_h : 0.0; }
};

// `alarms` in order of their beginning; limit and deadband as shares; `blocked`: times in which the drum was.
LossAlarmScore score_loss_alarms(const TrueLoss& truth, const std::vector<AlarmSpan>& alarms, double limit,
                                 double deadband, const std::vector<AlarmSpan>& blocked = {});

}  // namespace podrate::sim
