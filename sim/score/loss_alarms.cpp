#include "score/loss_alarms.hpp"

#include <algorithm>
#include <utility>

namespace podrate::sim {

LossEpisodes loss_episodes(const TrueLoss& truth, double limit, double deadband) {
    LossEpisodes found;
    const std::vector<double>& at_s = truth.unix_s;
    const auto above = [&truth](double share) {
        return spans_where(truth.unix_s.size(),
                           [&truth, share](std::size_t i) { return truth.total[i] > share; });
    };
    for (const SecondsSpan& span : above(limit)) {
        const double ended_s = at_s[std::min(span.last + 1, at_s.size() - 1)];
        if (ended_s - at_s[span.first] > kLossEpisodeS) found.due.push_back({at_s[span.first], ended_s});
    }
    for (const SecondsSpan& span : above(limit - deadband))
        found.reasons.push_back({at_s[span.first], at_s[span.last]});
    return found;
}

void leave_to_drum(const AlarmSpan& blocked, std::vector<AlarmSpan>& due, std::vector<AlarmSpan>& reasons) {
    std::vector<AlarmSpan> left;
    for (const AlarmSpan& span : due) {
        if (span.end_unix_s <= blocked.start_unix_s || span.start_unix_s >= blocked.end_unix_s) {
            left.push_back(span);
            continue;
        }
        for (const AlarmSpan& part : {AlarmSpan{span.start_unix_s, blocked.start_unix_s},
                                      AlarmSpan{blocked.end_unix_s, span.end_unix_s}}) {
            if (part.end_unix_s - part.start_unix_s > kLossEpisodeS) left.push_back(part);
        }
    }
    due = joined(std::move(left));
    reasons.push_back(blocked);
    reasons = joined(std::move(reasons));
}

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
                                 double deadband, const std::vector<AlarmSpan>& blocked) {
    LossEpisodes episodes = loss_episodes(truth, limit, deadband);
    for (const AlarmSpan& span : blocked) leave_to_drum(span, episodes.due, episodes.reasons);
    SpanScore spans = score_spans(alarms, episodes.due, episodes.reasons, kNearLossS);
    LossAlarmScore score;
    score.episodes = static_cast<int>(episodes.due.size());
    score.told = spans.told;
    score.delays_s = std::move(spans.delays_s);
    score.alarms = static_cast<int>(alarms.size());
    score.false_alarms = spans.false_alarms;
    score.chattered = spans.chattered;
    for (const double share : truth.total) score.harvest_h += share >= 0.0 ? 1.0 / 3600.0 : 0.0;
    return score;
}

}  // namespace podrate::sim
