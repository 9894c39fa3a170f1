#include "synth/random.hpp"

#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

// FNV-1a, 64 bits.
std::uint64_t hash(std::string_view text, std::uint64_t seed) {
    std::uint64_t h = 14695981039346656037ULL ^ (seed * 0x9E3779B97F4A7C15ULL);
    for (const char c : text) {
        h ^= static_cast<unsigned char>(c);
        h *= 1099511628211ULL;
    }
    return h;
}

}  // namespace

Random::Random(std::uint64_t seed, std::string_view purpose) : bits_(hash(purpose, seed)) {}

double Random::uniform() {
    return static_cast<double>(bits_() >> 11) * 0x1.0p-53;
}

double Random::uniform(double low, double high) {
    return low + (high - low) * uniform();
}

double Random::normal() {
    if (has_spare_) {
        has_spare_ = false;
        return spare_;
    }
    const double radius = std::sqrt(-2.0 * math::ln(1.0 - uniform()));
    const auto turn = math::sin_cos(6.283185307179586477 * uniform());
    has_spare_ = true;
    spare_ = radius * turn.sin;
    return radius * turn.cos;
}

double Random::wander(double value, double sd, double memory_s, double dt_s) {
    const double keep = math::exp(-dt_s / memory_s);
    return keep * value + sd * std::sqrt(1.0 - keep * keep) * normal();
}

double Random::exponential(double mean) {
    return -mean * math::ln(1.0 - uniform());
}

}  // namespace podrate::sim
