// Loss shares and their 90 % intervals from what is believed of the loss.
#pragma once

#include "podrate/loss/loss_belief.hpp"
#include "podrate/real.hpp"

namespace podrate {

// A share of the peas standing, with its 90 % interval.
struct Share {
    Real share = Real(0);
    Real low = Real(0);
    Real high = Real(0);
};

// The two losses are kept apart: what passes the drum, and what the reel leaves.
struct LossShares {
    Share total;
    Share drum;     // of the peas standing
    Share picking;  // of the peas standing
    Real ln_total_sd = Real(0);
};

// Intervals are those of a log-normal about the share believed.
LossShares loss_shares(const LossBelief& belief);

// The interval about `share` whose logarithm has that standard deviation, within 0 and 1.
Share share_with_interval(Real share, Real ln_sd);

}  // namespace podrate
