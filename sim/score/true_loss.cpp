#include "score/true_loss.hpp"

#include <algorithm>

namespace podrate::sim {

void smooth_shares(std::vector<double>& shares, int over_s) {
    const std::vector<double> raw = shares;
    const auto n = static_cast<long>(raw.size());
    for (long i = 0; i < n; ++i) {
        if (raw[static_cast<std::size_t>(i)] < 0.0) continue;
        double sum = 0.0;
        int count = 0;
        for (long j = std::max(0L, i - over_s / 2); j <= std::min(n - 1, i + over_s / 2); ++j) {
            const double share = raw[static_cast<std::size_t>(j)];
            if (share < 0.0) continue;
            sum += share;
            ++count;
        }
        shares[static_cast<std::size_t>(i)] = sum / count;
    }
}

TrueLoss true_loss(const TruePlant& plant) {
    TrueLoss truth;
    double stood_kg = 0.0;
    double lost_kg = 0.0;
    double drum_kg = 0.0;
    truth.drum_known = plant.drum_loss_known;
    for (const TrueSecond& second : plant.seconds) {
        const double standing_kg = second.standing_kgpm2 * second.area_rate_m2ps;  // in that second
        const bool cuts = standing_kg > 0.0;
        truth.unix_s.push_back(second.unix_s);
        truth.total.push_back(cuts ? second.loss_share : -1.0);
        truth.drum.push_back(cuts && truth.drum_known ? second.drum_loss_share : -1.0);
        stood_kg += standing_kg;
        lost_kg += standing_kg * second.loss_share;
        drum_kg += standing_kg * second.drum_loss_share;
    }
    smooth_shares(truth.total, kLossMeanS);
    smooth_shares(truth.drum, kLossMeanS);
    if (stood_kg > 0.0) {
        truth.mean_total = lost_kg / stood_kg;
        truth.mean_drum = truth.drum_known ? drum_kg / stood_kg : 0.0;
    }
    return truth;
}

}  // namespace podrate::sim
