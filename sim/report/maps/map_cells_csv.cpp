#include "report/maps/map_cells_csv.hpp"

#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "report/maps/cell_row.hpp"

namespace podrate::sim {

std::string map_cells_csv(const DayMap& map) {
    std::string text = "epsg,cell_m,east_m,north_m,field";
    for (const CellColumn& column : cell_columns()) text += std::string(",") + column.name;
    text += '\n';
    const std::string grid = std::to_string(map.plane.epsg()) + ',' + shown(map.cell_m) + ',';
    const auto add_figures = [&](const MapCell& cell) {
        for (const CellColumn& column : cell_columns()) {
            text += ',';
            const std::optional<double> value = column.value(cell, map.cell_m);
            if (value) append_fixed(text, *value, column.decimals);
        }
        text += '\n';
    };
    for (const MapCell& cell : map.cells) {
        text += grid;
        append_fixed(text, cell.place.column * map.cell_m, 2);
        text += ',';
        append_fixed(text, cell.place.row * map.cell_m, 2);
        text += ',';
        const std::string* field = field_of(cell, map);
        if (field != nullptr) text += csv_cell(*field);
        add_figures(cell);
    }
    text += grid + ",,unplaced";
    MapCell unplaced;
    unplaced.harvested_kg = map.unplaced_kg;
    unplaced.lost_kg = map.unplaced_lost_kg;
    add_figures(unplaced);
    return text;
}

}  // namespace podrate::sim
