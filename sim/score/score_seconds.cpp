#include <cmath>

#include "log/column_reader.hpp"
#include "podrate/estimate.hpp"
#include "score/bound.hpp"
#include "score/estimates_at.hpp"
#include "score/log_weights.hpp"
#include "score/score.hpp"
#include "score/true_faults.hpp"

namespace podrate::sim {
namespace {

constexpr long kNoTip = -1000000;
constexpr double kSameSecondS = 0.5;

// The plain method: weight now less weight some seconds ago, over that time.
void score_differencing(const std::vector<double>& weights_kg, std::size_t second, long last_tip,
                        double true_flow, double flow, MachineScore& score) {
    for (std::size_t w = 0; w < kDifferencing_s.size(); ++w) {
        const long span = kDifferencing_s[w];
        const auto now = static_cast<long>(second);
        if (now < span || now - last_tip <= span) continue;
        const double change_kg = weights_kg[second] - weights_kg[second - static_cast<std::size_t>(span)];
        if (!std::isfinite(change_kg)) continue;
        score.differencing[w].differenced.add(change_kg / static_cast<double>(span) - true_flow);
        score.differencing[w].estimated.add(flow - true_flow);
    }
}

// Mean of what the swath gave over kYieldOverM about a second; negative where that is not all harvest.
double true_yield(const TruePlant& plant, std::size_t second) {
    const double half_m = 0.5 * static_cast<double>(kYieldOverM);
    double sum = 0.0;
    int count = 0;
    for (const int way : {-1, 1}) {
        double walked_m = 0.0;
        for (auto i = static_cast<long>(second) + (way > 0 ? 1 : 0);; i += way) {
            if (i < 0 || i >= static_cast<long>(plant.seconds.size())) return -1.0;
            const TrueSecond& s = plant.seconds[static_cast<std::size_t>(i)];
            if (walked_m >= half_m) break;
            if (s.area_rate_m2ps <= 0.0) return -1.0;
            sum += s.standing_kgpm2 * (1.0 - s.loss_share);
            ++count;
            walked_m += s.speed_mps;
        }
    }
    return sum / count;
}

// The yield that is told belongs to the crop cut a dead time before.
void score_yields(const std::filesystem::path& file, const TruePlant& plant, double first_unix_s,
                  MachineScore& score) {
    ColumnReader yields(file, {"unix_s", "yield_kgpm2", "yield_sd_kgpm2"});
    while (yields.next()) {
        const double at_s = std::round(yields.number(0) - first_unix_s);
        const double cut_s = at_s - std::round(plant.drum.dead_time_s);
        if (cut_s < 0.0 || at_s >= static_cast<double>(plant.seconds.size())) continue;
        if (std::abs(yields.number(0) - first_unix_s - at_s) > kSameSecondS) continue;
        if (plant.seconds[static_cast<std::size_t>(at_s)].area_rate_m2ps <= 0.0) continue;
        const double truth = true_yield(plant, static_cast<std::size_t>(cut_s));
        if (truth < 0.0) continue;
        score.yield_coverage.add(yields.number(1) - truth, yields.number(2));
    }
}

// Alarms of loss, as the seconds show them.
class LossAlarmSpans {
  public:
    void see(double unix_s, bool alarm) {
        if (alarm && !was_) spans_.push_back({unix_s, unix_s});
        if (alarm || was_) spans_.back().end_unix_s = unix_s;
        was_ = alarm;
    }
    [[nodiscard]] const std::vector<AlarmSpan>& spans() const { return spans_; }

  private:
    std::vector<AlarmSpan> spans_;
    bool was_ = false;
};

}  // namespace

void score_seconds(const Machine& machine, const std::filesystem::path& results,
                   const std::filesystem::path& day_folder, MachineScore& score) {
    const TruePlant plant =
        read_true_plant(day_folder, machine.id, static_cast<double>(machine.parameters.width_m));
    const std::vector<TrueSecond>& truth = plant.seconds;
    if (truth.empty()) return;
    const FlowBound bound = flow_bound(plant);
    const LogWeights weights = log_weights(machine, day_folder, truth.front().unix_s, truth.size());
    const std::vector<double> smoother = smoothed_flow(plant, weights.mean_kg);
    EstimatesAt estimates(results / ("estimates_" + machine.id + ".csv"), LogClock(day_folder, machine.id));
    const TrueLoss loss = true_loss(plant);
    const auto dead_s = static_cast<std::size_t>(std::lround(plant.drum.dead_time_s));
    LossAlarmSpans loss_alarms;
    long last_tip = kNoTip;
    EstimateRow e;
    for (std::size_t second = 0; second < truth.size(); ++second) {
        const TrueSecond& t = truth[second];
        if (t.tipping) last_tip = static_cast<long>(second);
        if (!estimates.at(t.unix_s, e)) continue;
        const double error = e.flow_kgps - t.flow_kgps;
        score.flow.add(error);
        score.flow_error_sum_kgps += error;
        score.bound.add(std::sqrt(bound.filter_variance[second]));
        score.smoother_bound.add(std::sqrt(bound.smoother_variance[second]));
        score.smoother.add(smoother[second] - t.flow_kgps);
        ++score.seconds;
        score.true_seen_kg += t.flow_kgps;
        if (e.state == t.state) ++score.seconds_right;
        ++score.states[static_cast<std::size_t>(t.state)][static_cast<std::size_t>(e.state)];
        score.flow_coverage.add(error, e.flow_sd_kgps);
        score.mass_coverage.add(e.mass_kg - t.mass_kg, e.mass_sd_kg);
        // What is told belongs to the crop cut a dead time before.
        if (second >= dead_s && loss.total[second - dead_s] >= 0.0 &&
            e.state == static_cast<int>(WorkState::harvesting)) {
            const double lost = loss.total[second - dead_s];
            score.loss.total.seconds.add(e.loss_share - lost);
            score.loss_coverage.add_share(lost, e.loss_share, e.loss_low, e.loss_high);
        }
        loss_alarms.see(t.unix_s, e.loss_alarm);
        score.watched.push_back({t.unix_s, error, e.flow_sd_kgps, e.alarm});
        score_differencing(weights.reading_kg, second, last_tip, t.flow_kgps, e.flow_kgps, score);
    }
    score_yields(results / ("yields_" + machine.id + ".csv"), plant, truth.front().unix_s, score);
    score.loss.drum.known = loss.drum_known;
    score.loss.drum.true_share = loss.mean_drum;
    score_drum_seconds(results, day_folder, machine.id, plant, loss, score.loss.drum);
    std::vector<AlarmSpan> blocked;
    for (const TrueFault& fault : read_true_faults(day_folder, machine.id)) {
        if (fault.kind == FaultKind::drum_blocked) blocked.push_back({fault.start_unix_s, fault.end_unix_s});
    }
    score.loss.alarms =
        score_loss_alarms(loss, loss_alarms.spans(), static_cast<double>(machine.parameters.loss_high_share),
                          static_cast<double>(machine.parameters.loss_high_deadband_share), blocked);
    score.faults = score_faults(day_folder, machine.id, score.watched);
}

}  // namespace podrate::sim
