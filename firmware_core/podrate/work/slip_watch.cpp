#include "podrate/work/slip_watch.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"
#include "podrate/math/wgs84.hpp"

namespace podrate {

using namespace choices::slip;

namespace {

constexpr Real kEquatorM = Real(math::kEquatorialRadiusM);
constexpr Real kE2 = Real(math::kEccentricity2);
constexpr Real kDegPerE7 = Real(1e-7);
constexpr std::int64_t kWholeTurnE7 = 3600000000;

}  // namespace

void SlipWatch::roll(Real wheel_m) {
    if (leg_begun_) wheel_m_ += wheel_m;
}

// On the ellipsoid, by the radii of curvature at the place; exact to a millimetre over a leg.
Real SlipWatch::distance_m(std::int32_t lat_e7, std::int32_t lon_e7) const {
    const auto angle = math::sin_cos(math::deg_to_rad(static_cast<Real>(lat_e7) * kDegPerE7));
    const Real flat = Real(1) - kE2 * angle.sin * angle.sin;
    const Real across_m = kEquatorM / math::sqrt(flat);
    const Real along_m = across_m * (Real(1) - kE2) / flat;
    std::int64_t east_e7 = std::int64_t{lon_e7} - from_lon_e7_;
    if (east_e7 > kWholeTurnE7 / 2) east_e7 -= kWholeTurnE7;
    if (east_e7 < -kWholeTurnE7 / 2) east_e7 += kWholeTurnE7;
    const std::int64_t north_e7 = std::int64_t{lat_e7} - from_lat_e7_;
    const Real north_m = along_m * math::deg_to_rad(static_cast<Real>(north_e7) * kDegPerE7);
    const Real east_m = across_m * angle.cos * math::deg_to_rad(static_cast<Real>(east_e7) * kDegPerE7);
    return math::sqrt(north_m * north_m + east_m * east_m);
}

void SlipWatch::pass(std::int32_t lat_e7, std::int32_t lon_e7) {
    if (leg_begun_ && wheel_m_ < kLegM) return;
    if (leg_begun_) {
        const Real ratio = distance_m(lat_e7, lon_e7) / wheel_m_;
        if (math::abs(ratio - Real(1)) < kMostSlip) {
            const Real of_places = kPlaceSdM / wheel_m_;
            const Real noise = Real(2) * of_places * of_places + kWanderSd * kWanderSd;
            variance_ = variance_ < Real(0) ? kUsualSd * kUsualSd : variance_ + kDriftPerM * wheel_m_;
            const Real gain = variance_ / (variance_ + noise);
            factor_ += gain * (ratio - factor_);
            variance_ *= Real(1) - gain;
        }
    }
    leg_begun_ = true;
    from_lat_e7_ = lat_e7;
    from_lon_e7_ = lon_e7;
    wheel_m_ = Real(0);
}

}  // namespace podrate
