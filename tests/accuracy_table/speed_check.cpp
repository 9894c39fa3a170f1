#include "accuracy_table/speed_check.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/loss/loss_curve.hpp"

namespace podrate::accuracy {
namespace {

constexpr long kAboutS = 300;
constexpr double kRightWithin = 0.05;

// Feed at which the drum's and the reel's loss come to `limit`.
double feed_at(const sim::ScenarioDrum& drum, double limit) {
    const double level = LossCurve<double>::level_for(drum.loss_share);
    const double hazard = std::log((1.0 - drum.picking_loss_share) / (1.0 - limit));
    return hazard > 0.0 ? drum.rated_feed_kgps + drum.feed_steepness_kgps * (std::log(hazard) - level) : 0.0;
}

}  // namespace

SpeedCheck::SpeedCheck(const sim::TruePlant& plant, double limit)
    : plant_(plant), right_mps_(plant.seconds.size(), 0.0) {
    const double feed = feed_at(plant.drum, limit);
    std::vector<double> feed_sum(plant.seconds.size() + 1, 0.0);
    std::vector<double> walked_m(plant.seconds.size() + 1, 0.0);
    for (std::size_t i = 0; i < plant.seconds.size(); ++i) {
        const sim::TrueSecond& s = plant.seconds[i];
        const bool cutting = s.area_rate_m2ps > 0.0;
        feed_sum[i + 1] = feed_sum[i] + (cutting ? s.feed_kgps : 0.0);
        walked_m[i + 1] = walked_m[i] + (cutting ? s.speed_mps : 0.0);
    }
    const auto n = static_cast<long>(plant.seconds.size());
    for (long i = 0; i < n; ++i) {
        const auto from = static_cast<std::size_t>(std::max(0L, i - kAboutS));
        const auto to = static_cast<std::size_t>(std::min(n, i + kAboutS + 1));
        const double fed = feed_sum[to] - feed_sum[from];
        if (fed > 0.0) right_mps_[static_cast<std::size_t>(i)] = feed * (walked_m[to] - walked_m[from]) / fed;
    }
}

void SpeedCheck::on_row(const sim::LogRow& row, const Estimate& e) {
    const double unix_s = static_cast<double>(row.time_us) / 1e6;
    while (next_ < plant_.seconds.size() && plant_.seconds[next_].unix_s < unix_s - 0.5) ++next_;
    if (next_ >= plant_.seconds.size() || plant_.seconds[next_].unix_s > unix_s) return;
    const double right_mps = right_mps_[next_];
    const bool cutting = plant_.seconds[next_].area_rate_m2ps > 0.0;
    ++next_;
    if (!cutting || e.state != WorkState::harvesting || right_mps <= 0.0) return;
    ++seconds;
    if (e.advice.binding == Binding::unsure || !e.advice.under_limit.known) return;
    const SpeedRange& told = e.advice.under_limit;
    ++advised;
    if (std::abs(static_cast<double>(told.speed_mps) / right_mps - 1.0) <= kRightWithin) ++right;
    if (right_mps >= static_cast<double>(told.low_mps) && right_mps <= static_cast<double>(told.high_mps))
        ++held;
}

}  // namespace podrate::accuracy
