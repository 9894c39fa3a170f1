// What the books of a gang say up to a moment, and nothing that came after it.
#pragma once

#include <string>
#include <vector>

#include "replay/day_replay.hpp"

namespace podrate::sim {

struct MachineBooks {
    std::string id;
    double capacity_kg = 0.0;
    std::vector<Minute> minutes;     // whole ones, up to the moment
    std::vector<Stretch> stretches;  // the last one ends at the moment; their kg are not to be used
    double hopper_kg = 0.0;          // now
    double delivered_kg = 0.0;       // left the hopper since the log began
    TimeUs log_ended_us = 0;         // earlier than the moment where the log ended before it; else 0
};

struct GangBooks {
    TimeUs now_us = 0;                   // a whole minute
    std::vector<MachineBooks> machines;  // those whose log was used and had begun by then

    [[nodiscard]] double delivered_t() const;
    [[nodiscard]] double in_hoppers_t() const;
};

// Sums of a machine at the end of its last whole minute before a moment: harvested less in the hopper.
double delivered_kg_by(const std::vector<Minute>& minutes, TimeUs time_us);
double hopper_kg_at(const std::vector<Minute>& minutes, TimeUs time_us);

// The end of the day's last minute.
TimeUs end_of_books_us(const DayResult& result);

// `now_us`: down to its whole minute. A row says what it says whatever came after it, so the books up to a
// moment are those of logs that end there (tests/sim/gang_books_test.cpp).
GangBooks books_until(const DayResult& result, TimeUs now_us);

}  // namespace podrate::sim
