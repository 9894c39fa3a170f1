// What is lost, in words and whole figures, and how sure that is.
#pragma once

#include <string>

#include "model/words.hpp"
#include "podrate/estimate.hpp"

namespace podrate::ui {

struct LossFigures {
    bool known = false;  // false: nothing was cut yet
    bool now = false;    // at the present feed; otherwise at the usual speed
    Sureness sureness = Sureness::guess;
    std::string figure;    // "7 %", or "3 to 14 %" where a single figure would say too much
    std::string interval;  // "5 to 9 %", empty where the figure is the interval
    std::string sure;      // "roughly known"
    std::string source;    // "2 trays counted"
    std::string apart;     // "drum 4 %, picking 3 %"
    std::string ground;    // "about 330 kg/ha on the ground"

    std::string limit_words;  // "limit 10 %"
    std::string scale_words;  // "20 %", the upper end of the bar

    // For the bar, shares.
    double share = 0.0;
    double low = 0.0;
    double high = 0.0;
    double limit = 0.0;
    double scale = 0.0;  // upper end of it
};

LossFigures loss_figures(const Estimate& estimate, const Parameters& parameters, const Speech& say);

}  // namespace podrate::ui
