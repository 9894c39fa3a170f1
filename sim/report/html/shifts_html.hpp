// Totals shift by shift.
#pragma once

#include <string>

#include "hours/shift_totals.hpp"

namespace podrate::sim {

// A row for each machine and shift.
std::string shift_table_html(const std::vector<Shift>& shifts, const Day& day, const DayResult& result);

// The report's section; empty where the day is not cut into shifts.
std::string shifts_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
