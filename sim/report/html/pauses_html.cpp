#include "report/html/pauses_html.hpp"

#include <algorithm>

#include "log/number.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/long_table.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

struct Paused {
    const MachineResult* machine;
    const Pause* pause;
};

std::string place_text(const Pause& pause) {
    if (!pause.place_known) return "not known";
    return fixed(static_cast<double>(pause.lat_e7) * 1e-7, 5) + ", " +
           fixed(static_cast<double>(pause.lon_e7) * 1e-7, 5);
}

std::string surge_text(const Pause& pause) {
    if (!pause.surge_known) return "not known";
    const std::string kg = fixed(static_cast<double>(pause.surge_kg), 0);
    return (kg.front() == '-' || kg == "0" ? "" : "+") + kg;
}

constexpr const char* kWhatItIs =
    "<p class=\"quiet\">Where a machine stopped in standing crop its running drum let go on one spot what it "
    "held: "
    "about so much haulm lies there. Surge: peas that came in the half minute after going on, beyond what "
    "the area "
    "cut then lets expect.</p>\n";

}  // namespace

std::string pauses_html(const Day& day, const DayResult& result) {
    std::vector<Paused> all;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        for (const Pause& pause : m.pauses) all.push_back({&m, &pause});
    }
    if (all.empty()) return {};
    std::stable_sort(all.begin(), all.end(),
                     [](const Paused& a, const Paused& b) { return a.pause->start_us < b.pause->start_us; });
    std::vector<std::vector<std::string>> rows;
    for (const Paused& p : all) {
        rows.push_back({clock_cell(p.pause->start_us, day, result), p.machine->id,
                        duration_text(static_cast<double>(p.pause->end_us - p.pause->start_us) / 1e6),
                        place_text(*p.pause), fixed(static_cast<double>(p.pause->heap_kg), 0),
                        surge_text(*p.pause)});
    }
    return "<h2>Pauses in standing crop</h2>\n" +
           long_table_html(
               {"began", "machine", "lasted", "latitude, longitude", "heap of haulm, about kg", "surge, kg"},
               rows, {1}) +
           kWhatItIs;
}

}  // namespace podrate::sim
