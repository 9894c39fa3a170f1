#include "synth/land/plane_field.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"
#include "synth/random.hpp"

namespace podrate::sim {
namespace {

constexpr double kTwoPi = 6.283185307179586477;
constexpr double kShortestWavePerM = 12.0;  // rad/m: waves of half a metre and longer
constexpr double kSameHeadingDeg = 0.01;

double amplitude(std::size_t waves) {
    return std::sqrt(2.0 / static_cast<double>(waves));
}

double cosine_at(const PlaneField::Wave& wave, EastNorth place) {
    return math::sin_cos(wave.east_per_m * place.east_m + wave.north_per_m * place.north_m + wave.phase_rad)
        .cos;
}

}  // namespace

// In the plane the spectral density of exp(-d/L) is proportional to (1 + k2 L2)^(-3/2), so the wave number at
// which a share u of the power lies below is sqrt((1 - u)^-2 - 1)/L.
PlaneField::PlaneField(std::uint64_t seed, std::string_view purpose, double length_m, int waves) {
    Random random(seed, purpose);
    for (int i = 0; i < waves; ++i) {
        const double u = random.uniform();
        const double k =
            std::min(std::sqrt(1.0 / ((1.0 - u) * (1.0 - u)) - 1.0) / length_m, kShortestWavePerM);
        const auto direction = math::sin_cos(kTwoPi * random.uniform());
        waves_.push_back({k * direction.cos, k * direction.sin, kTwoPi * random.uniform()});
    }
}

double PlaneField::at(EastNorth place) const {
    double sum = 0.0;
    for (const Wave& wave : waves_) sum += cosine_at(wave, place);
    return amplitude(waves_.size()) * sum;
}

void SwathMean::turn_to(double heading_deg) {
    if (std::abs(heading_deg - heading_deg_) < kSameHeadingDeg) return;
    heading_deg_ = heading_deg;
    const auto ahead = math::sin_cos(math::deg_to_rad(heading_deg));
    gains_.clear();
    variance_ = 0.0;
    for (const PlaneField::Wave& wave : field_->waves()) {
        const double across_per_m = wave.east_per_m * ahead.cos - wave.north_per_m * ahead.sin;
        const double turn = 0.5 * width_m_ * across_per_m;
        const double gain = std::abs(turn) < 1e-6 ? 1.0 : math::sin_cos(turn).sin / turn;
        gains_.push_back(gain);
        variance_ += gain * gain / static_cast<double>(field_->waves().size());
    }
}

double SwathMean::at(EastNorth place, double heading_deg) {
    turn_to(heading_deg);
    double sum = 0.0;
    for (std::size_t i = 0; i < gains_.size(); ++i) sum += gains_[i] * cosine_at(field_->waves()[i], place);
    return amplitude(gains_.size()) * sum;
}

}  // namespace podrate::sim
