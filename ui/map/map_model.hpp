// What the map of a day shows, as plain data: cells, fields, marks and each machine's way.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "map/place_track.hpp"
#include "map/plane_box.hpp"
#include "maps/cell_figure.hpp"
#include "replay/day_replay.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {

enum class MapTopic : std::uint8_t { yield, loss };
inline constexpr int kMapTopics = 2;

Quantity quantity_of(MapTopic topic);
const sim::CellFigure& figure_of(MapTopic topic);

enum class Doubt : std::uint8_t { sure, unsure, very_unsure };

struct CellValue {
    float kgpm2 = 0.0F;
    float sd_kgpm2 = 0.0F;
    Doubt doubt = Doubt::sure;
};

struct ShownCell {
    sim::CellPlace place;
    std::array<CellValue, kMapTopics> values;

    [[nodiscard]] const CellValue& of(MapTopic topic) const {
        return values[static_cast<std::size_t>(topic)];
    }
};

struct FieldShape {
    std::string name;
    std::vector<std::vector<sim::EastNorth>> rings;
    PlaneBox box;
};

struct MapPin {
    sim::MarkKind kind = sim::MarkKind::tip;
    std::size_t machine = 0;  // in MapModel::machines
    sim::EastNorth place;
    TimeUs start_us = 0;
    TimeUs end_us = 0;
    double figure = 0.0;  // as in sim::MapMark
};

struct MachineWay {
    std::string id;
    PlaceTrack track;
};

// Places are metres from `origin`, a corner of the cells' grid on the UTM plane.
struct MapModel {
    std::string time_zone;
    double cell_m = 0.0;
    double convergence_deg = 0.0;  // north of the grid less true north, clockwise
    sim::EastNorth origin;
    sim::CellPlace origin_cell;
    std::vector<ShownCell> cells;  // with a yield; from south to north, in a row from west to east
    std::vector<FieldShape> fields;
    std::vector<MapPin> pins;
    std::vector<MachineWay> machines;  // in the order of Day::machines
    PlaneBox whole;                    // of the cells and of the fields cut

    // Of each topic, in metric and in US units.
    std::array<std::array<sim::MapScale, 2>, kMapTopics> scales;

    [[nodiscard]] const sim::MapScale& scale(MapTopic topic, Units units) const {
        return scales[static_cast<std::size_t>(topic)][static_cast<std::size_t>(units)];
    }
    [[nodiscard]] sim::EastNorth south_west(const ShownCell& cell) const {
        return {cell_m * (cell.place.column - origin_cell.column),
                cell_m * (cell.place.row - origin_cell.row)};
    }
    // Nothing where no cell tells a yield.
    [[nodiscard]] const ShownCell* cell_at(sim::EastNorth place) const;
    [[nodiscard]] std::optional<sim::EastNorth> place_at(std::size_t machine, TimeUs time_us) const {
        return machines[machine].track.place_at(time_us);
    }
    // When that machine was nearest to the place.
    [[nodiscard]] std::optional<Passing> nearest_time(std::size_t machine, sim::EastNorth place) const {
        return machines[machine].track.nearest(place);
    }
};

// From a day analysed with its map (sim::analyse_day). Nothing where it has none, or no cell has a yield.
std::optional<MapModel> make_map_model(const sim::Day& day, const sim::DayResult& result);

}  // namespace podrate::ui
