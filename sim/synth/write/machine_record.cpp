#include "synth/write/machine_record.hpp"

#include <algorithm>

namespace podrate::sim {
namespace {

constexpr double kSameS = 1e-9;

// The truth between two steps: what runs on evenly runs on, the rest is as at the later one.
VinerTruth truth_between(const VinerTruth& before, const VinerTruth& after, double share) {
    VinerTruth truth = after;
    const auto between = [share](double a, double b) { return a + share * (b - a); };
    truth.mass_kg = between(before.mass_kg, after.mass_kg);
    truth.speed_mps = between(before.speed_mps, after.speed_mps);
    truth.pose.place.east_m = between(before.pose.place.east_m, after.pose.place.east_m);
    truth.pose.place.north_m = between(before.pose.place.north_m, after.pose.place.north_m);
    return truth;
}

}  // namespace

MachineRecord::MachineRecord(const Scenario& scenario, const ScenarioMachine& machine)
    : scenario_(scenario),
      sensors_(scenario, machine),
      log_(scenario, machine),
      truth_(scenario),
      clock_(scenario, machine) {}

void MachineRecord::follow(long step, const VinerTruth& now) {
    const double time_s = static_cast<double>(step) / kStepsPerSecond;
    if (step % kStepsPerSecond == 0) truth_.add(time_s, now);
    sensors_.follow(time_s, now, kStepS);
    for (double row_s = clock_.next_s(); row_s <= time_s + kSameS; row_s = clock_.next_s()) {
        const double share = time_s > 0.0 ? 1.0 - std::max(time_s - row_s, 0.0) / kStepS : 1.0;
        const VinerTruth truth = share > 1.0 - kSameS ? now : truth_between(before_, now, share);
        const double dt_s = row_s > last_row_s_ ? row_s - last_row_s_ : kStepS;
        sensors_.sense(row_s, truth, scenario_.fields[truth.field], dt_s);
        log_.add(row_s, truth, sensors_);
        last_row_s_ = row_s;
        clock_.advance();
    }
    before_ = now;
}

}  // namespace podrate::sim
