// Times of the day as people write them.
#pragma once

#include <optional>
#include <string>

#include "podrate/sample.hpp"

namespace podrate::ui {

// "15:42:10" in that IANA time zone; "15:42" without seconds.
std::string clock_text(TimeUs time_us, const std::string& time_zone, bool seconds);

// Reads "15:42", "15:42:10" (on the local day of `near_us`, or the next where that lies before it) or unix
// seconds.
std::optional<TimeUs> parse_clock(const std::string& text, const std::string& time_zone, TimeUs near_us);

}  // namespace podrate::ui
