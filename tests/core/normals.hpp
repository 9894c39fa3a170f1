// Seeded numbers for tests: the distributions of the standard library differ between libraries.
#pragma once

#include <cmath>
#include <cstdint>
#include <random>

namespace podrate::test {

// Normal numbers by Box and Muller, and evenly spread ones.
class Normals {
  public:
    explicit Normals(std::uint32_t seed) : bits_(seed) {}
    double next() {
        spare_ready_ = !spare_ready_;
        if (!spare_ready_) return spare_;
        const double radius = std::sqrt(-2.0 * std::log(uniform()));
        const double angle = 6.283185307179586 * uniform();
        spare_ = radius * std::sin(angle);
        return radius * std::cos(angle);
    }
    // Between 0 and 1, never either.
    double uniform() { return (static_cast<double>(bits_()) + 0.5) / 4294967296.0; }
    double between(double low, double high) { return low + (high - low) * uniform(); }

  private:
    std::mt19937 bits_;
    bool spare_ready_ = false;
    double spare_ = 0.0;
};

}  // namespace podrate::test
