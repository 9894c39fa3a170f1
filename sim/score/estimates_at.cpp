#include "score/estimates_at.hpp"

#include <algorithm>
#include <string>

#include "log/problem.hpp"
#include "podrate/alarm/alarm_panel.hpp"
#include "podrate/estimate.hpp"

namespace podrate::sim {
namespace {

constexpr double kNearS = 1.5;

// Alarms about loss, rate and hopper tell of no sensor.
bool tells_of_fault(std::string_view alarms) {
    for (int i = 0; i < kFaults; ++i) {
        if (alarms.find(name_of_fault(i)) != std::string_view::npos) return true;
    }
    return false;
}

// `alarms`: names joined by '|'.
bool tells(std::string_view alarms, std::string_view name) {
    while (!alarms.empty()) {
        const std::size_t end = std::min(alarms.find('|'), alarms.size());
        if (alarms.substr(0, end) == name) return true;
        alarms.remove_prefix(std::min(end + 1, alarms.size()));
    }
    return false;
}

}  // namespace

int state_index(std::string_view name, const std::filesystem::path& file) {
    for (int i = 0; i < kWorkStates; ++i) {
        if (name == name_of(static_cast<WorkState>(i))) return i;
    }
    throw RefusedInput(
        {file.string(), 0, "unknown work state '" + std::string(name) + "'", "make the file anew"});
}

EstimatesAt::EstimatesAt(const std::filesystem::path& file, const LogClock& clock)
    : file_(file),
      clock_(clock),
      reader_(file, {"unix_s", "mass_kg", "mass_sd_kg", "flow_kgps", "flow_sd_kgps", "loss_share", "loss_low",
                     "loss_high", "state", "alarms"}),
      more_(read(after_)) {}

bool EstimatesAt::read(EstimateRow& row) {
    if (!reader_.next()) return false;
    row.unix_s = clock_.true_unix_s(reader_.number(0));
    row.mass_kg = reader_.number(1);
    row.mass_sd_kg = reader_.number(2);
    row.flow_kgps = reader_.number(3);
    row.flow_sd_kgps = reader_.number(4);
    row.loss_share = reader_.number(5);
    row.loss_low = reader_.number(6);
    row.loss_high = reader_.number(7);
    row.state = state_index(reader_.text(8), file_);
    row.alarm = tells_of_fault(reader_.text(9));
    row.loss_alarm = tells(reader_.text(9), name_of(AlarmId::loss_high));
    return true;
}

bool EstimatesAt::at(double unix_s, EstimateRow& row) {
    while (more_ && after_.unix_s <= unix_s) {
        before_ = after_;
        more_ = read(after_);
    }
    if (unix_s - before_.unix_s > kNearS) return false;
    row = before_;
    if (before_.unix_s >= unix_s) return true;
    if (!more_ || after_.unix_s - unix_s > kNearS) return false;
    const double share = (unix_s - before_.unix_s) / (after_.unix_s - before_.unix_s);
    const auto between = [share](double a, double b) { return a + share * (b - a); };
    row.mass_kg = between(before_.mass_kg, after_.mass_kg);
    row.mass_sd_kg = between(before_.mass_sd_kg, after_.mass_sd_kg);
    row.flow_kgps = between(before_.flow_kgps, after_.flow_kgps);
    row.flow_sd_kgps = between(before_.flow_sd_kgps, after_.flow_sd_kgps);
    row.unix_s = unix_s;
    return true;
}

}  // namespace podrate::sim
