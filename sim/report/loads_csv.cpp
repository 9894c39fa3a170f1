#include "report/loads_csv.hpp"

#include "log/number.hpp"

namespace podrate::sim {
namespace {

void add_place(std::string& text, const Load& load) {
    if (load.place_known) append_fixed(text, static_cast<double>(load.lat_e7) * 1e-7, 7);
    text += ',';
    if (load.place_known) append_fixed(text, static_cast<double>(load.lon_e7) * 1e-7, 7);
    text += ',';
}

}  // namespace

double loss_share_of(const Load& load) {
    const double all_kg = static_cast<double>(load.net_kg) + static_cast<double>(load.lost_kg);
    return all_kg > 0.0 ? static_cast<double>(load.lost_kg) / all_kg : 0.0;
}

double oldest_pea_min(const Load& load) {
    return static_cast<double>(load.end_us - load.first_cut_us) / 60e6;
}

double yield_tpha_of(const Load& load) {
    return tonnes_per_hectare(static_cast<double>(load.net_kg), static_cast<double>(load.area_m2));
}

std::string loads_csv(const DayResult& result) {
    std::string text =
        "machine,load,start_unix_s,end_unix_s,lat_deg,lon_deg,net_kg,net_sd_kg,area_ha,yield_tpha,loss_pct,"
        "oldest_pea_min\n";
    const auto add = [&text](double value, int decimals, char after) {
        append_fixed(text, value, decimals);
        text += after;
    };
    for (const MachineResult& machine : result.machines) {
        for (const Load& load : machine.loads) {
            text += machine.id + ',' + std::to_string(load.number) + ',';
            add(static_cast<double>(load.start_us) / 1e6, 1, ',');
            add(static_cast<double>(load.end_us) / 1e6, 1, ',');
            add_place(text, load);
            add(static_cast<double>(load.net_kg), 1, ',');
            add(static_cast<double>(load.net_sd_kg), 2, ',');
            add(static_cast<double>(load.area_m2) / 1e4, 4, ',');
            add(yield_tpha_of(load), 3, ',');
            add(100.0 * loss_share_of(load), 2, ',');
            add(oldest_pea_min(load), 1, '\n');
        }
    }
    return text;
}

}  // namespace podrate::sim
