// Keeps work that runs side by side together, so that none is left to run alone at the end.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <mutex>
#include <vector>

namespace podrate::sim {

// Three logs on two processors: left alone, one of the three threads often has a processor to itself and ends
// early, and the others' rest no longer fills both. Whoever is well ahead waits for the hindmost instead.
class Pacer {
  public:
    explicit Pacer(std::size_t count) : share_(count, kNotRunning) {}
    void begin(std::size_t who);
    // Share of the work done, 0 to 1. Returns once the hindmost of those that have begun is near.
    void reached(std::size_t who, double share);
    void end(std::size_t who);

  private:
    static constexpr double kNotRunning = 2.0;
    [[nodiscard]] double hindmost() const;
    std::mutex mutex_;
    std::condition_variable moved_;
    std::vector<double> share_;
};

}  // namespace podrate::sim
