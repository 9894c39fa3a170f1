#include "report/freshness_csv.hpp"

#include "hours/freshness.hpp"
#include "log/number.hpp"

namespace podrate::sim {

std::string freshness_csv(const Day& day, const DayResult& result) {
    std::string text =
        "machine,load,tipped_unix_s,net_kg,traced_kg,oldest_min,median_min,intake_oldest_min,"
        "intake_median_min,over_limit_pct\n";
    const auto add = [&text](double value, char after) {
        append_fixed(text, value, 1);
        text += after;
    };
    const auto add_known = [&text](const std::optional<double>& value, double scale, char after) {
        if (value) append_fixed(text, scale * *value, 1);
        text += after;
    };
    for (const MachineResult& machine : result.machines) {
        for (const Freshness& f : freshness_of(machine, day.hours)) {
            text += machine.id + ',' + std::to_string(f.load) + ',';
            add(static_cast<double>(f.tipped_us) / 1e6, ',');
            add(f.net_kg, ',');
            add(f.traced_kg, ',');
            add(f.oldest_min, ',');
            add_known(f.median_min, 1.0, ',');
            add(f.intake_oldest_min, ',');
            add_known(f.intake_median_min, 1.0, ',');
            add_known(f.over_limit, 100.0, '\n');
        }
    }
    return text;
}

}  // namespace podrate::sim
