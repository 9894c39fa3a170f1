// A map made by hand: two fields of 40 by 30 cells of 10 m, three machines, a mark of each kind.
#pragma once

#include <cmath>

#include "map/map_model.hpp"

namespace podrate::ui {

inline constexpr TimeUs kSmallStartUs = 1751032800LL * kSecondUs;

inline CellValue small_value(double kgpm2, double sd_share, const sim::CellFigure& figure) {
    CellValue value;
    value.kgpm2 = static_cast<float>(kgpm2);
    value.sd_kgpm2 = static_cast<float>(sd_share * kgpm2);
    if (sd_share > figure.unsure_share) value.doubt = Doubt::unsure;
    if (sd_share > figure.very_unsure_share) value.doubt = Doubt::very_unsure;
    return value;
}

inline FieldShape small_field(const char* name, const PlaneBox& box) {
    FieldShape field;
    field.name = name;
    field.box = box;
    field.rings = {{{box.west_m, box.south_m},
                    {box.east_m, box.south_m},
                    {box.east_m, box.north_m},
                    {box.west_m, box.north_m}}};
    return field;
}

// Sure in the west, unsure in the middle and very unsure in the east of the first field.
inline MapModel small_map() {
    MapModel model;
    model.time_zone = "Europe/London";
    model.cell_m = 10.0;
    model.convergence_deg = 0.5;
    model.origin = {412340.0, 5798760.0};
    model.origin_cell = {41234, 579876};
    std::array<std::vector<double>, kMapTopics> values;
    for (std::int32_t row = 0; row < 30; ++row) {
        for (std::int32_t column = 0; column < 85; ++column) {
            if (column >= 40 && column < 45) continue;
            ShownCell& cell = model.cells.emplace_back();
            cell.place = {model.origin_cell.column + column, model.origin_cell.row + row};
            const double kgpm2 = 0.3 + 0.004 * column + 0.005 * row;
            const double sd_share = column < 15 ? 0.03 : column < 30 ? 0.12 : column < 40 ? 0.3 : 0.05;
            cell.values[0] = small_value(kgpm2, sd_share, figure_of(MapTopic::yield));
            cell.values[1] = small_value(0.04 * kgpm2, 0.2, figure_of(MapTopic::loss));
            for (std::size_t topic = 0; topic < values.size(); ++topic)
                values[topic].push_back(static_cast<double>(cell.values[topic].kgpm2));
        }
    }
    for (const MapTopic topic : {MapTopic::yield, MapTopic::loss}) {
        for (const Units units : {Units::metric, Units::us}) {
            const Unit& unit = unit_of(quantity_of(topic), units);
            std::vector<double> in_unit = values[static_cast<std::size_t>(topic)];
            for (double& value : in_unit) value *= unit.per_si;
            model.scales[static_cast<std::size_t>(topic)][static_cast<std::size_t>(units)] =
                sim::map_scale(in_unit, unit.decimals);
        }
    }
    model.fields = {small_field("Saltings", {0.0, 0.0, 400.0, 300.0}),
                    small_field("Gorse Piece", {450.0, 0.0, 850.0, 300.0})};
    model.whole = {0.0, 0.0, 850.0, 300.0};
    for (int machine = 0; machine < 3; ++machine) {
        MachineWay& way = model.machines.emplace_back();
        way.id = "viner_" + std::to_string(machine + 1);
        // To and fro at 1.5 m/s, a bout each 200 s.
        for (int second = 0; second < 3600; ++second) {
            const int bout = second / 200;
            const int along = bout % 2 == 0 ? second % 200 : 200 - second % 200;
            way.track.add(kSmallStartUs + second * kSecondUs,
                          {20.0 + 250.0 * machine + 3.3 * bout, 1.5 * along});
        }
    }
    for (int kind = 0; kind < sim::kMarkKinds; ++kind) {
        const TimeUs start_us = kSmallStartUs + (600 + 300 * kind) * kSecondUs;
        model.pins.push_back({static_cast<sim::MarkKind>(kind),
                              0,
                              {100.0 + 60.0 * kind, 150.0},
                              start_us,
                              start_us + 90 * kSecondUs,
                              1234.0});
    }
    return model;
}

}  // namespace podrate::ui
