#include "podrate/loss/passed_places.hpp"

#include "podrate/choices.hpp"

namespace podrate {

using namespace choices::loss;

void PassedPlaces::remember(const PassedPlace& place) {
    if (kept_ > 0 && place.cut_us - places_[newest_].cut_us < kPlaceEveryUs) return;
    newest_ = kept_ > 0 ? (newest_ + 1) % kPlaces : 0;
    places_[newest_] = place;
    if (kept_ < kPlaces) ++kept_;
}

bool PassedPlaces::at(TimeUs time_us, PassedPlace& place) const {
    int nearest = -1;
    TimeUs nearest_us = kPlaceReachUs;
    for (int i = 0; i < kept_; ++i) {
        const TimeUs cut_us = places_[i].cut_us;
        const TimeUs off_us = cut_us < time_us ? time_us - cut_us : cut_us - time_us;
        if (off_us > nearest_us) continue;
        nearest_us = off_us;
        nearest = i;
    }
    if (nearest < 0) return false;
    place = places_[nearest];
    if (nearest == newest_) return true;
    const PassedPlace& next = places_[(nearest + 1) % kPlaces];
    if (next.cut_us - place.cut_us <= 2 * kPlaceEveryUs)
        place.passed_kgpm2 = (place.passed_kgpm2 + next.passed_kgpm2) * Real(0.5);
    return true;
}

}  // namespace podrate
