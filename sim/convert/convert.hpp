// Logs of one kind rewritten as another.
#pragma once

#include <filesystem>
#include <functional>

#include "log/machine_log.hpp"
#include "log/problem.hpp"

namespace podrate::sim {

// From CSV to candump text or back, or from a receiver's NMEA 0183 to either, by the files' names; .zst is
// (un)packed on the way. What the estimator
// would be fed from the one it is fed from the other, to the resolution of the messages
// (bus/bus_encoder.hpp). progress: bytes of the input read so far. Throws RefusedInput where nothing can be
// done.
void convert_log(const std::filesystem::path& from, const std::filesystem::path& to, const BusChoice& bus,
                 Problems& problems, const std::function<void(std::uint64_t bytes)>& progress);

}  // namespace podrate::sim
