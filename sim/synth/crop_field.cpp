#include "synth/crop_field.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"
#include "synth/random.hpp"

namespace podrate::sim {
namespace {

constexpr int kWaves = 192;
constexpr double kTwoPi = 6.283185307179586477;
constexpr double kShortestWavePerM = 1.6;  // rad/m: waves of 4 m and longer

}  // namespace

// In the plane the spectral density of exp(-d/L) is proportional to (1 + k2 L2)^(-3/2), so the wave number at
// which a share u of the power lies below is sqrt((1 - u)^-2 - 1)/L.
CropField::CropField(const ScenarioField& field, std::uint64_t seed)
    : ln_mean_(math::ln(field.crop_kgpm2) - 0.5 * field.crop_cv * field.crop_cv),
      amplitude_(field.crop_cv * std::sqrt(2.0 / kWaves)) {
    Random random(seed, "crop " + field.name);
    for (int i = 0; i < kWaves; ++i) {
        const double u = random.uniform();
        const double k =
            std::min(std::sqrt(1.0 / ((1.0 - u) * (1.0 - u)) - 1.0) / field.crop_length_m, kShortestWavePerM);
        const auto direction = math::sin_cos(kTwoPi * random.uniform());
        waves_.push_back({k * direction.cos, k * direction.sin, kTwoPi * random.uniform()});
    }
}

double CropField::standing_kgpm2(EastNorth place) const {
    double sum = 0.0;
    for (const Wave& wave : waves_) {
        sum +=
            math::sin_cos(wave.east_per_m * place.east_m + wave.north_per_m * place.north_m + wave.phase_rad)
                .cos;
    }
    return math::exp(ln_mean_ + amplitude_ * sum);
}

}  // namespace podrate::sim
