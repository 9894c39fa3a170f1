// The truth of the loss as anybody could tell it: over some seconds, as the drum mixes.
#pragma once

#include <vector>

#include "score/true_plant.hpp"

namespace podrate::sim {

inline constexpr int kLossMeanS = 10;

// Shares of the peas standing, second by second; negative where no crop is cut.
struct TrueLoss {
    std::vector<double> unix_s;
    std::vector<double> total;
    std::vector<double> drum;  // negative throughout where the truth does not tell it apart
    double mean_total = 0.0;   // over all peas that stood where it cut
    double mean_drum = 0.0;
    bool drum_known = false;
};

TrueLoss true_loss(const TruePlant& plant);

// Each share that is not negative becomes the mean of those not negative within `over_s` seconds about it.
void smooth_shares(std::vector<double>& shares, int over_s);

}  // namespace podrate::sim
