// What the chosen alarm had to tell and told, in words: plain text, no drawing.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "bench/bench.hpp"

namespace podrate::ui {

// "15:02:10 to 15:04:00", by the day's clock.
std::string span_words(const Bench& bench, const sim::AlarmSpan& span);

// Over the strip: what stands under the cursor, or else who says what was to be told.
std::string strip_words(const Bench& bench);

// Name, before and after; the first row is the head. Cells are empty until all is counted.
std::vector<std::array<std::string, 3>> told_rows(const Bench& bench);

// Why there is no curve; empty where there is one.
std::string no_curve_words(const Bench& bench);
// How sure curve and figures are.
std::string sureness_words(const Bench& bench);

// "0.120: 12 of 14 told, 0.30 for nothing an hour".
std::string point_words(const Bench& bench, double value, const sim::AlarmFigures& figures);

}  // namespace podrate::ui
