// What the simulator's strip shows at one moment: plain words and numbers, no drawing.
#pragma once

#include <string>
#include <vector>

#include "simulator/simulator.hpp"

namespace podrate::ui {

struct ControlLine {
    std::string key;    // "Space"
    std::string what;   // "Reel"
    std::string state;  // "lifted", or empty
};

struct FaultLine {
    std::string key;  // "1"
    std::string name;
    bool on = false;
};

struct BesideLine {
    std::string name;     // "Load rate", in the unit of the view
    std::string truth;    // "5.1", or a dash where there is nothing to compare now
    std::string told;     // "4.8 to 5.4"
    std::string verdict;  // "in it", "outside", or empty
    bool holds = false;
    std::string so_far;  // "91 %" of the seconds compared, or empty
};

struct ScoreLine {
    std::string name;
    std::string value;
};

struct SimulatorFigures {
    Speech say;
    std::string pace;       // "2x", "paused"
    std::string pause_key;  // "P: pause"
    std::string page_key;   // "Tab: more", of a strip that shows half of it at a time
    std::string notice;     // what comes next, or why an order was refused
    bool refused = false;
    std::vector<ControlLine> controls;
    std::vector<FaultLine> faults;
    std::vector<BesideLine> beside;
    std::vector<ScoreLine> score;
    bool second_page = false;
};

SimulatorFigures simulator_figures(const Simulator& simulator, const Speech& say);

}  // namespace podrate::ui
