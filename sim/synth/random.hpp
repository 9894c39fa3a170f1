// Random numbers that are the same on every compiler and machine.
#pragma once

#include <cstdint>
#include <random>
#include <string_view>

namespace podrate::sim {

// std::mt19937_64's bits are fixed by the C++ standard, the standard library's distributions are not: these
// are ours. Each purpose gets a stream of its own, so that a new noise source does not shift the others.
class Random {
  public:
    Random(std::uint64_t seed, std::string_view purpose);

    double uniform();  // [0, 1), 53 bits
    double uniform(double low, double high);
    double normal();  // Box-Muller
    double normal(double mean, double sd) { return mean + sd * normal(); }
    double exponential(double mean);
    // `value`, which wanders about 0 with that sd and memory, `dt_s` on (an Ornstein-Uhlenbeck process).
    double wander(double value, double sd, double memory_s, double dt_s);

  private:
    std::mt19937_64 bits_;
    bool has_spare_ = false;
    double spare_ = 0.0;
};

}  // namespace podrate::sim
