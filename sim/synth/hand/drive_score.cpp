#include "synth/hand/drive_score.hpp"

#include <algorithm>
#include <cmath>

#include "log/units.hpp"
#include "score/true_loss.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kKeptS = 60;

TruthBeside normal_beside(double truth, Real told, Real sd) {
    const auto middle = static_cast<double>(told);
    const double reach = kReach90 * static_cast<double>(sd);
    return {true, truth, middle, std::max(0.0, middle - reach), middle + reach};
}

}  // namespace

void DriveScore::compare(DriveFigure figure, const TruthBeside& now) {
    const auto i = static_cast<std::size_t>(figure);
    beside_[i] = now;
    if (!now.known) return;
    ++compared_[i];
    if (now.holds()) ++held_[i];
}

// Mean of what the swath gave over kYieldOverM about the place cut a dead time ago; negative where that is
// not all harvest.
double DriveScore::true_yield() const {
    const double half_m = 0.5 * static_cast<double>(kYieldOverM);
    const auto at = static_cast<long>(cuts_.size()) - 1 - std::lround(dead_s_);
    double sum = 0.0;
    int count = 0;
    for (const int way : {-1, 1}) {
        double walked_m = 0.0;
        for (long i = at + (way > 0 ? 1 : 0); walked_m < half_m; i += way) {
            if (i < 0 || i >= static_cast<long>(cuts_.size())) return -1.0;
            const Cut& cut = cuts_[static_cast<std::size_t>(i)];
            if (!cut.any) return -1.0;
            sum += cut.yield_kgpm2;
            ++count;
            walked_m += cut.speed_mps;
        }
    }
    return sum / count;
}

// Mean over kLossMeanS about the second a dead time ago; negative where nothing was cut then.
double DriveScore::true_loss() const {
    const auto at = static_cast<long>(cuts_.size()) - 1 - std::lround(dead_s_);
    if (at < 0 || !cuts_[static_cast<std::size_t>(at)].any) return -1.0;
    double sum = 0.0;
    int count = 0;
    const long end = std::min(static_cast<long>(cuts_.size()) - 1, at + kLossMeanS / 2);
    for (long i = std::max(0L, at - kLossMeanS / 2); i <= end; ++i) {
        const Cut& cut = cuts_[static_cast<std::size_t>(i)];
        if (!cut.any) continue;
        sum += cut.loss_share;
        ++count;
    }
    return sum / count;
}

void DriveScore::second(const VinerTruth& truth, bool blocked, const Estimate* told) {
    ++seconds_;
    if (truth.speed_mps <= 0.0 && truth.state != WorkState::tipping) ++standing_s_;
    if (blocked) ++blocked_s_;
    const double met_kg = truth.cut_kg + truth.lost_kg;
    if (met_kg > 0.0) mean_loss_ = truth.lost_kg / met_kg;
    cuts_.push_back({truth.area_rate_m2ps > 0.0, truth.standing_kgpm2 * (1.0 - truth.loss_share),
                     truth.loss_share, truth.speed_mps});
    if (cuts_.size() > kKeptS) cuts_.pop_front();
    beside_ = {};
    if (told == nullptr) return;
    const Estimate& e = *told;
    compare(DriveFigure::rate, normal_beside(truth.flow_kgps, e.flow_kgps, e.flow_sd_kgps));
    compare(DriveFigure::hopper, normal_beside(truth.mass_kg, e.mass_kg, e.mass_sd_kg));
    if (e.state != WorkState::harvesting) return;
    const double yield = true_yield();
    if (yield >= 0.0) compare(DriveFigure::yield, normal_beside(yield, e.yield_kgpm2, e.yield_sd_kgpm2));
    const double loss = true_loss();
    if (loss < 0.0) return;
    compare(DriveFigure::loss, {true, loss, static_cast<double>(e.loss_share),
                                static_cast<double>(e.loss_low), static_cast<double>(e.loss_high)});
}

}  // namespace podrate::sim
