#include "synth/synthesis.hpp"

#include <cmath>
#include <vector>

#include "report/output_file.hpp"
#include "synth/machine/gang.hpp"
#include "synth/machine/viner.hpp"
#include "synth/write/made_day.hpp"
#include "synth/write/tray_layer.hpp"

namespace podrate::sim {

void synthesise(const Scenario& scenario, const std::filesystem::path& out,
                const std::function<void(double)>& progress) {
    make_folder(out / "truth");  // before hours of work
    Gang gang(scenario);
    std::vector<Viner> viners;
    std::vector<MachineRecord> records;
    for (std::size_t i = 0; i < scenario.machines.size(); ++i) {
        viners.emplace_back(scenario, scenario.machines[i], i, kStepS, gang);
        records.emplace_back(scenario, scenario.machines[i]);
    }
    TrayLayer trays(scenario);
    const auto steps = static_cast<long>(std::lround(scenario.hours * 3600.0 * kStepsPerSecond));
    for (long step = 0; step < steps; ++step) {
        const double time_s = static_cast<double>(step) / kStepsPerSecond;
        gang.update(time_s);
        for (std::size_t i = 0; i < viners.size(); ++i) {
            viners[i].step(time_s, gang);
            const VinerTruth& truth = viners[i].truth();
            trays.pass(i, time_s, truth, step % kStepsPerSecond == 0);
            records[i].follow(step, truth);
        }
        if (progress && step % 2000 == 0) progress(static_cast<double>(step) / static_cast<double>(steps));
    }
    MadeDay made = {{}, {}, trays.laid()};
    for (std::size_t i = 0; i < viners.size(); ++i) {
        made.works.push_back(&viners[i].works());
        made.records.push_back(&records[i]);
    }
    write_made_day(scenario, gang, made, out);
}

}  // namespace podrate::sim
