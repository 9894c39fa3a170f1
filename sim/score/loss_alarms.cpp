#include "score/loss_alarms.hpp"

#include <algorithm>

#include "podrate/alarm/choices.hpp"

namespace podrate::sim {
namespace {

constexpr double kEpisodeS = 30.0;
constexpr double kNearEpisodeS = 20.0;  // the drum's times and the alarm's own delays
constexpr double kChatterS = static_cast<double>(choices::alarm::kChatterUs) / 1e6;
constexpr std::size_t kChatterCount = choices::alarm::kChatterActivations;

void judge_episode(double began_s, double ended_s, const std::vector<AlarmSpan>& alarms,
                   LossAlarmScore& score) {
    if (ended_s - began_s <= kEpisodeS) return;
    ++score.episodes;
    for (const AlarmSpan& alarm : alarms) {
        if (alarm.end_unix_s < began_s || alarm.start_unix_s > ended_s + kNearEpisodeS) continue;
        ++score.told;
        score.delays_s.push_back(std::max(0.0, alarm.start_unix_s - began_s));
        return;
    }
}

bool had_reason(const TrueLoss& truth, const AlarmSpan& alarm, double above) {
    const auto first =
        std::lower_bound(truth.unix_s.begin(), truth.unix_s.end(), alarm.start_unix_s - kNearEpisodeS);
    for (auto i = static_cast<std::size_t>(first - truth.unix_s.begin()); i < truth.unix_s.size(); ++i) {
        if (truth.unix_s[i] > alarm.end_unix_s + kNearEpisodeS) return false;
        if (truth.total[i] > above) return true;
    }
    return false;
}

}  // namespace

void LossAlarmScore::add(const LossAlarmScore& other) {
    episodes += other.episodes;
    told += other.told;
    delays_s.insert(delays_s.end(), other.delays_s.begin(), other.delays_s.end());
    alarms += other.alarms;
    false_alarms += other.false_alarms;
    chattered += other.chattered;
    harvest_h += other.harvest_h;
}

double LossAlarmScore::median_delay_s() const {
    if (delays_s.empty()) return -1.0;
    std::vector<double> sorted = delays_s;
    std::sort(sorted.begin(), sorted.end());
    const std::size_t half = sorted.size() / 2;
    return sorted.size() % 2 == 1 ? sorted[half] : 0.5 * (sorted[half - 1] + sorted[half]);
}

LossAlarmScore score_loss_alarms(const TrueLoss& truth, const std::vector<AlarmSpan>& alarms, double limit,
                                 double deadband) {
    LossAlarmScore score;
    bool above_before = false;
    double began_s = 0.0;
    for (std::size_t i = 0; i < truth.unix_s.size(); ++i) {
        if (truth.total[i] >= 0.0) score.harvest_h += 1.0 / 3600.0;
        const bool above = truth.total[i] > limit;
        if (above && !above_before) began_s = truth.unix_s[i];
        if (above_before && !above) judge_episode(began_s, truth.unix_s[i], alarms, score);
        above_before = above;
    }
    if (above_before) judge_episode(began_s, truth.unix_s.back(), alarms, score);
    for (std::size_t a = 0; a < alarms.size(); ++a) {
        ++score.alarms;
        if (!had_reason(truth, alarms[a], limit - deadband)) ++score.false_alarms;
        if (a + 1 >= kChatterCount &&
            alarms[a].start_unix_s - alarms[a + 1 - kChatterCount].start_unix_s <= kChatterS)
            ++score.chattered;
    }
    return score;
}

}  // namespace podrate::sim
