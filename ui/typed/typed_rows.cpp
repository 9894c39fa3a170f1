#include "typed/typed_rows.hpp"

#include <algorithm>

#include "day/added_rows.hpp"
#include "log/number.hpp"
#include "report/output_file.hpp"

namespace podrate::ui {
namespace {

std::string unix_text(double unix_s) {
    return sim::fixed(unix_s, 1);
}

// Of a file whose trays are told by mass alone, by mass.
std::vector<sim::NamedCells> rows_of(const std::vector<TypedTray>& trays, bool by_mass) {
    std::vector<sim::NamedCells> rows;
    for (const TypedTray& tray : trays) {
        sim::NamedCells row = {{"unix_s", unix_text(tray.check.unix_s)}, {"machine", tray.check.machine}};
        if (by_mass) {
            row["kg_per_ha"] = sim::fixed(tray.check.kg_per_ha, 1);
        } else {
            row["count"] = sim::shown(tray.count);
            row["area_m2"] = sim::shown(tray.area_m2);
            row["thousand_pea_g"] = sim::shown(tray.thousand_pea_g);
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

std::string trays_text(const std::filesystem::path& path, const std::vector<TypedTray>& trays) {
    const std::vector<std::string> counted = {"unix_s", "machine", "count", "area_m2", "thousand_pea_g"};
    try {
        return sim::with_rows(path, counted, counted, rows_of(trays, false));
    } catch (const sim::RefusedInput&) {
        return sim::with_rows(path, counted, {"unix_s", "machine", "kg_per_ha"}, rows_of(trays, true));
    }
}

}  // namespace

sim::Machine with_trays(const sim::Machine& machine, const TypedRows& rows) {
    sim::Machine changed = machine;
    for (const TypedTray& tray : rows.trays) {
        if (tray.check.machine == machine.id) changed.trays.push_back(tray.check);
    }
    std::stable_sort(changed.trays.begin(), changed.trays.end(),
                     [](const sim::TrayCheck& a, const sim::TrayCheck& b) { return a.unix_s < b.unix_s; });
    return changed;
}

sim::Day with_readings(const sim::Day& day, const TypedRows& rows) {
    sim::Day changed = day;
    changed.maturity.insert(changed.maturity.end(), rows.readings.begin(), rows.readings.end());
    std::stable_sort(
        changed.maturity.begin(), changed.maturity.end(),
        [](const sim::MaturityReading& a, const sim::MaturityReading& b) { return a.unix_s < b.unix_s; });
    return changed;
}

std::vector<std::filesystem::path> write_typed(const std::filesystem::path& folder, TypedRows& rows) {
    std::vector<std::filesystem::path> written;
    if (!rows.trays.empty()) {
        const std::filesystem::path path = folder / "tray_checks.csv";
        sim::write_file(path, trays_text(path, rows.trays));
        rows.trays.clear();
        written.push_back(path);
    }
    if (!rows.readings.empty()) {
        const std::filesystem::path path = folder / "maturity.csv";
        const std::vector<std::string> columns = {"unix_s", "field", "tenderometer"};
        std::vector<sim::NamedCells> cells;
        for (const sim::MaturityReading& reading : rows.readings) {
            cells.push_back({{"unix_s", unix_text(reading.unix_s)},
                             {"field", reading.field},
                             {"tenderometer", sim::shown(reading.tenderometer)}});
        }
        sim::write_file(path, sim::with_rows(path, columns, columns, cells));
        rows.readings.clear();
        written.push_back(path);
    }
    return written;
}

}  // namespace podrate::ui
