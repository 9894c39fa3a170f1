#include "model/words.hpp"

#include "podrate/estimate.hpp"

namespace podrate::ui {

const char* word_for(WorkState state) {
    switch (state) {
        case WorkState::harvesting: return "Harvesting";
        case WorkState::turning: return "Turning";
        case WorkState::paused_in_crop: return "Paused in crop";
        case WorkState::waiting: return "Waiting to tip";
        case WorkState::tipping: return "Tipping";
        case WorkState::travelling: return "Travelling";
        case WorkState::stopped: return "Stopped";
    }
    return "Stopped";
}

std::string fault_line(std::uint8_t faults) {
    if ((faults & kWeightMissing) != 0)
        return "No weight signal. Load rate is a guess. Check the weigh cells' cable.";
    if ((faults & kWeightStuck) != 0)
        return "Weight does not change. Load rate is a guess. Check the weigh cells.";
    if ((faults & kSpeedMissing) != 0) return "No speed signal. Area stands still. Check the speed sensor.";
    if ((faults & kWeightJump) != 0)
        return "The weight jumped without a tip. The total is less sure. Check the hopper.";
    if ((faults & kIntakeUnclear) != 0) {
        return "Peas come although speed or reel say no work. Area is wrong. Check both signals.";
    }
    return {};
}

}  // namespace podrate::ui
