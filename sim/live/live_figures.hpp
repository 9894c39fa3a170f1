// What is said once a second, as a line of text or of JSON.
#pragma once

#include <string>

#include "podrate/estimate.hpp"
#include "podrate/sample.hpp"

namespace podrate::sim {

enum class LiveInput : std::uint8_t {
    good,
    no_weight,  // something comes, but no weight: the figures are not known now
    silent,     // nothing that can be used comes
};

// How the CAN bus is; `none` where no frame has come so far.
enum class LiveBus : std::uint8_t { none, good, silent, flooded, passive, off };

struct LiveFigures {
    TimeUs time_us = 0;
    LiveInput input = LiveInput::silent;
    LiveBus bus = LiveBus::none;
    double quiet_s = 0.0;  // since the last weight, or the last of anything
    Estimate estimate;     // counts only where the input is good
};

// "14:05:03 harvesting       4.8 t/h (4.1 to 5.5)   ..."; times in an IANA zone, ranges hold 9 times in 10.
std::string live_line(const LiveFigures& figures, const std::string& time_zone);

// One object; what is not known now is null.
std::string live_json(const LiveFigures& figures);

}  // namespace podrate::sim
