#include "podrate/loss/passed_places.hpp"

#include "podrate/choices.hpp"

namespace podrate {

using namespace choices::loss;

namespace {

constexpr TimeUs kMsUs = 1000;
constexpr TimeUs kLongestUs = TimeUs(0xFFFFFFFF) * kMsUs;

std::int32_t to_ms(TimeUs span_us) {
    return static_cast<std::int32_t>(span_us / kMsUs);
}

}  // namespace

void PassedPlaces::remember(const PassedPlace& place) {
    if (kept_ > 0 && place.cut_us - newest_us_ < kPlaceEveryUs) return;
    if (kept_ == 0 || place.cut_us - first_us_ > kLongestUs) {
        first_us_ = place.cut_us;
        kept_ = 0;
    }
    newest_ = kept_ > 0 ? (newest_ + 1) % kPlaces : 0;
    newest_us_ = place.cut_us;
    places_[newest_] = {static_cast<std::uint32_t>((place.cut_us - first_us_) / kMsUs), place.area_rate_m2ps,
                        place.passed_kgpm2, place.ln_excess};
    if (kept_ < kPlaces) ++kept_;
}

bool PassedPlaces::at(TimeUs time_us, PassedPlace& place) const {
    if (time_us < first_us_ - kPlaceReachUs || time_us > newest_us_ + kPlaceReachUs) return false;
    // No place lies before the first: what is asked for up to half a minute before it counts as off by that.
    const TimeUs after_us = time_us - first_us_;
    const auto before_ms = after_us < 0 ? static_cast<std::uint32_t>(to_ms(-after_us)) : 0U;
    const auto asked_ms = after_us < 0 ? 0U : static_cast<std::uint32_t>(after_us / kMsUs);
    int nearest = -1;
    std::uint32_t nearest_ms = static_cast<std::uint32_t>(to_ms(kPlaceReachUs));
    for (int i = 0; i < kept_; ++i) {
        const std::uint32_t cut_ms = places_[i].cut_ms;
        const std::uint32_t off_ms = (cut_ms < asked_ms ? asked_ms - cut_ms : cut_ms - asked_ms) + before_ms;
        if (off_ms > nearest_ms) continue;
        nearest_ms = off_ms;
        nearest = i;
    }
    if (nearest < 0) return false;
    const Kept& found = places_[nearest];
    place = {first_us_ + TimeUs(found.cut_ms) * kMsUs, found.area_rate_m2ps, found.passed_kgpm2,
             found.ln_excess};
    if (nearest == newest_) return true;
    const Kept& next = places_[(nearest + 1) % kPlaces];
    if (next.cut_ms - found.cut_ms <= static_cast<std::uint32_t>(to_ms(2 * kPlaceEveryUs)))
        place.passed_kgpm2 = (place.passed_kgpm2 + next.passed_kgpm2) * Real(0.5);
    return true;
}

}  // namespace podrate
