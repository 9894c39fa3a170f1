// The feed behind what passes a drum: more loss means more crop, and so more feed.
#pragma once

#include "podrate/choices.hpp"
#include "podrate/loss/loss_curve.hpp"

namespace podrate {

template <class T>
struct PassedFeed {
    T feed_kgps;
    T hazard;   // of the drum
    T steeper;  // d ln(hazard) / d level, bounded near the fold
};

// Where peas pass at `passed_kgps`; feed_per_pea: haulm and peas for each pea taken in. At the fold as many
// peas pass as ever can: a rate beyond that is read as one at the fold.
template <class T>
PassedFeed<T> feed_where_passed(const LossCurve<T>& curve, T feed_per_pea, T passed_kgps) {
    PassedFeed<T> answer{feed_per_pea * passed_kgps, T(0), T(1)};
    for (int i = 0; i < choices::loss::kFeedRounds; ++i) {
        answer.hazard = curve.hazard_to_fold(answer.feed_kgps);
        answer.feed_kgps = feed_per_pea * passed_kgps * math::exp(answer.hazard);
    }
    answer.hazard = curve.hazard_to_fold(answer.feed_kgps);
    const T fold = answer.hazard * answer.feed_kgps / curve.steepness_kgps;
    const T most = static_cast<T>(choices::flow::kFoldShare);
    answer.steeper = T(1) / (T(1) - (fold < most ? fold : most));
    return answer;
}

}  // namespace podrate
