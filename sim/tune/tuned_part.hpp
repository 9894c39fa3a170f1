// A piece of a sweep's work: some settings on one machine's day.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "tune/tally.hpp"

namespace podrate::sim {

struct TunedPart {
    bool usable = false;  // false: the log was refused; `refusal` says why
    std::string refusal;
    std::string outside;       // of the episodes marked; see marked_outside()
    std::uint64_t faults = 0;  // rows and values of the log that were left out
    std::vector<MachineDayTally> tallies;
};

// As bytes for this kind of machine, to be kept.
std::string bytes_of(const TunedPart& part);
// Nothing where they are no such bytes.
std::optional<TunedPart> part_of(const std::string& bytes);

}  // namespace podrate::sim
