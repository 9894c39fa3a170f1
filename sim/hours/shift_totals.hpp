// A day cut into its shifts.
#pragma once

#include <string>
#include <vector>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

struct ShiftMachine {
    std::string id;
    KindSeconds seconds{};
    double harvested_kg = 0.0;  // that reached the hopper
    double area_m2 = 0.0;
    std::size_t loads = 0;  // whose tip began in the shift
    double tipped_kg = 0.0;
};

struct Shift {
    TimeUs from_us = 0;
    TimeUs to_us = 0;                    // its first moment that is the next shift's
    std::vector<ShiftMachine> machines;  // those whose log was used
};

// From the first row of the day to the last, cut where day.hours says that a shift begins; one shift where it
// says nothing. A time of day that the clock leaves out in spring begins none that day. Days of more than
// kMostShiftDays are not cut: their times can't be right.
std::vector<Shift> shifts_of(const Day& day, const DayResult& result);

inline constexpr TimeUs kMostShiftDays = 31;

}  // namespace podrate::sim
