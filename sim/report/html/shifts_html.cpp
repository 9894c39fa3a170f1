#include "report/html/shifts_html.hpp"

#include <algorithm>

#include "log/number.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {

std::string shift_table_html(const std::vector<Shift>& shifts, const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const Shift& shift : shifts) {
        const std::string when = clock_cell(shift.from_us, day, result) + " to " +
                                 clock_cell(std::min(shift.to_us, result.last_us), day, result);
        for (const ShiftMachine& m : shift.machines) {
            double not_harvesting_s = 0.0;
            for (std::size_t i = 1; i < kTimeKinds; ++i) not_harvesting_s += m.seconds[i];
            rows.push_back({when, m.id, fixed(m.harvested_kg / 1e3, 2), fixed(m.area_m2 / 1e4, 2),
                            std::to_string(m.loads), fixed(m.tipped_kg / 1e3, 2), duration_text(m.seconds[0]),
                            duration_text(not_harvesting_s)});
        }
    }
    return table_html({"shift", "machine", "harvested, t", "area, ha", "loads tipped", "tipped, t",
                       "harvesting", "not harvesting"},
                      rows, {1});
}

std::string shifts_html(const Day& day, const DayResult& result) {
    const std::vector<Shift> shifts = shifts_of(day, result);
    if (shifts.size() < 2) return {};
    return "<h2>Shift by shift</h2>\n" + shift_table_html(shifts, day, result);
}

}  // namespace podrate::sim
