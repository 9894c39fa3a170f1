// What is asked of a setting, and how surely.
#pragma once

#include <cstddef>
#include <cstdint>

namespace podrate::sim {

struct TuningOptions {
    double most_false_per_h = 0.25;  // one false alarm in four hours; common practice, no source
    double least_detection = 0.95;   // share of the episodes to be told; likewise
    double level = 0.9;              // of all ranges
    double widest_detection = 0.3;   // Wilson's range wider than this: too few episodes to tell
    std::size_t draws = 1000;        // of the bootstrap
    std::uint64_t seed = 1;
};

}  // namespace podrate::sim
