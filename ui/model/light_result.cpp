#include "model/light_result.hpp"

namespace podrate::ui {

void drop_track(sim::MachineResult& machine) {
    std::vector<sim::BeliefStep>().swap(machine.beliefs);
    std::vector<sim::SwathPiece>().swap(machine.swath);
    std::vector<sim::WorkPoint>().swap(machine.work);
}

}  // namespace podrate::ui
