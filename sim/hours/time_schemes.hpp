// The same seconds by published schemes of working time.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "hours/time_kind.hpp"

namespace podrate::sim {

struct TimeClass {
    const char* name;    // as the scheme calls it
    const char* words;   // what of the log stands for it, in plain words
    std::uint8_t kinds;  // bit 1 << TimeKind of each that falls into it
};

struct TimeScheme {
    const char* name;
    const char* untold;  // what can't be told from the log
    std::vector<TimeClass> classes;
};

// Konaka, "Rate of Work": field time = effective work + idle running and turning + travel in the field +
// adjustment + minor breakdown + supply and discharge + waiting + auxiliary. The
// names of both schemes are from memory.
const TimeScheme& konaka_scheme();
// KTBL (Kuratorium fuer Technik und Bauwesen in der Landwirtschaft): main time, turning, servicing,
// unavoidable loss, waiting, travel, set-up.
const TimeScheme& ktbl_scheme();

// Seconds of each class, in the scheme's order.
std::vector<double> seconds_by_class(const TimeScheme& scheme, const KindSeconds& seconds);

}  // namespace podrate::sim
