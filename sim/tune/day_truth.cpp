#include "tune/day_truth.hpp"

#include "tune/tray_episodes.hpp"
#include "tune/true_episodes.hpp"

namespace podrate::sim {

MachineTruth unmarked_truth(const std::filesystem::path& day_folder, const Machine& machine,
                            const std::function<MachineResult()>& replayed) {
    if (has_truth(day_folder)) return true_episodes(day_folder, machine);
    MachineTruth truth;
    if (!machine.trays.empty())
        truth[static_cast<std::size_t>(AlarmId::loss_high)] = tray_episodes(machine, replayed());
    return truth;
}

}  // namespace podrate::sim
