// The present speed, the one that is right and why, and what half a kilometre an hour more or less would
// bring. In the units of the speech.
#pragma once

#include <string>

#include "model/words.hpp"
#include "podrate/estimate.hpp"

namespace podrate::ui {

// What another speed would bring.
struct StepLine {
    std::string speed;   // "0.5 km/h faster"
    std::string rate;    // "+0.6 t/h"
    std::string ground;  // "+80 kg/ha lost"
};

struct SpeedFigures {
    std::string now;  // "3.2", empty where there is no speed signal
    bool advised = false;
    bool later = false;          // the advice is for when work goes on
    std::string right;           // "2.9"
    std::string right_interval;  // "2.5 to 3.4", empty where the machine's limit decides
    std::string why;             // "faster would lose more than 10 %"
    std::string reason;          // "2.9 km/h is right: faster would ...", or what the fold says; may be empty
    bool past_fold = false;      // more speed brings fewer peas: the reason says so
    bool steps = false;
    StepLine faster;
    StepLine slower;
};

SpeedFigures speed_figures(const Estimate& estimate, const Parameters& parameters, const Speech& say);

}  // namespace podrate::ui
