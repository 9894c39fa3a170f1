// Share of the peas that never reaches the hopper, as a function of the feed.
#pragma once

#include "podrate/math/elementary.hpp"

namespace podrate {

// loss(F) = b + (1 - b) (1 - exp(-exp(a + (F - Fr)/Fw))): between b and 1 at every feed, growing as an
// exponential of the feed while small. b: picking loss, hardly changed by speed. a: sets the drum's loss at
// the rated feed Fr.
template <class T>
struct LossCurve {
    T picking_share = T(0.04);
    T level_a = T(-3.33);
    T rated_feed_kgps = T(8);
    T steepness_kgps = T(3.5);

    // exp(a + (F - Fr)/Fw), bounded at e^2: the drum then loses 99.9 %.
    [[nodiscard]] T hazard(T feed_kgps) const {
        const T inner = level_a + (feed_kgps - rated_feed_kgps) / steepness_kgps;
        return math::exp(inner > T(2) ? T(2) : inner);
    }
    // The same, but beyond the fold, where more crop would bring fewer peas, no more than at it.
    [[nodiscard]] T hazard_to_fold(T feed_kgps) const {
        const T hazard_1 = hazard(feed_kgps);
        return hazard_1 * feed_kgps <= steepness_kgps ? hazard_1 : steepness_kgps / feed_kgps;
    }
    [[nodiscard]] T passed_share(T hazard_1) const { return (T(1) - picking_share) * math::exp(-hazard_1); }
    [[nodiscard]] T loss_share(T feed_kgps) const { return T(1) - passed_share(hazard(feed_kgps)); }

    // The level a that makes the drum lose `share` of what passes it at the rated feed.
    static T level_for(T share) { return math::ln(-math::ln(T(1) - share)); }
};

}  // namespace podrate
