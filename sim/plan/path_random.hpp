// Random numbers of one simulated path: a stream of its own, cheap to begin, the same on every machine.
#pragma once

#include <cmath>
#include <cstdint>

#include "plan/normal_quantile.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate::sim {

// SplitMix64 (Steele, Lea & Flood, OOPSLA 2014). The same seed, path and part give the same numbers whatever
// was drawn elsewhere, so that two cases differ only by what is asked of them.
class PathRandom {
  public:
    PathRandom(std::uint64_t seed, std::uint64_t path, std::uint64_t part)
        : state_(mixed(mixed(mixed(seed) + path) + part)) {}

    // (0, 1), never an end of it.
    double uniform() { return (static_cast<double>(next() >> 11) + 0.5) * 0x1.0p-53; }
    double normal() { return normal_quantile(uniform()); }
    double exponential(double mean) { return -mean * math::ln(uniform()); }
    // 0 to count - 1.
    std::size_t below(std::size_t count) {
        return static_cast<std::size_t>(uniform() * static_cast<double>(count));
    }
    // Mean `shape`, shape >= 1: Marsaglia & Tsang, ACM Trans. Math. Softw. 26(3): 363-372, 2000.
    double gamma(double shape) {
        const double d = shape - 1.0 / 3.0;
        const double c = 1.0 / std::sqrt(9.0 * d);
        for (;;) {
            const double x = normal();
            const double v = 1.0 + c * x;
            if (v <= 0.0) continue;
            const double cube = v * v * v;
            if (math::ln(uniform()) < 0.5 * x * x + d - d * cube + d * math::ln(cube)) return d * cube;
        }
    }

  private:
    static std::uint64_t mixed(std::uint64_t z) {
        z += 0x9E3779B97F4A7C15ULL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31);
    }
    std::uint64_t next() {
        const std::uint64_t z = mixed(state_);
        state_ += 0x9E3779B97F4A7C15ULL;
        return z;
    }
    std::uint64_t state_;
};

}  // namespace podrate::sim
