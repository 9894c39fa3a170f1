// The gang against the plan, in sentences.
#pragma once

#include <string>
#include <vector>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Where the gang stands, at what pace, what is to be expected, and when a machine that stands must be back.
// Empty without a plan.
std::vector<std::string> plan_sentences(const Day& day, const DayResult& result);

// One line for who takes over; empty without a forecast.
std::string keep_to_plan_line(const Day& day, const DayResult& result);

// "6 % faster", "as now", "30 % slower or more", "out of reach: limit 9 % faster".
std::string speed_words(const SpeedNeed& need);

// "by 15:10", "out of reach even at once", "not needed".
std::string back_words(const BackBy& back, const Day& day, const DayResult& result);

// A chance as whole per cent that never claims certainty: "below 1 %", "34 %", "above 99 %".
std::string chance_words(double chance);

}  // namespace podrate::sim
