#include "map/map_model.hpp"

#include <algorithm>
#include <cmath>

#include "log/units.hpp"

namespace podrate::ui {
namespace {

constexpr std::array<MapTopic, kMapTopics> kTopics = {MapTopic::yield, MapTopic::loss};

// Of the value that sim::CellFigure gives.
double per_kgpm2(MapTopic topic) {
    return topic == MapTopic::yield ? sim::kTphaPerKgpm2 : sim::kKgphaPerKgpm2;
}

CellValue value_of(const sim::MapCell& cell, double cell_m, MapTopic topic) {
    const sim::CellFigure& figure = figure_of(topic);
    const double kgpm2 = *figure.value(cell, cell_m) / per_kgpm2(topic);
    const double sd_share = figure.sd_share(cell);
    CellValue value;
    value.kgpm2 = static_cast<float>(kgpm2);
    value.sd_kgpm2 = static_cast<float>(sd_share * std::abs(kgpm2));
    if (sd_share > figure.unsure_share) value.doubt = Doubt::unsure;
    if (sd_share > figure.very_unsure_share) value.doubt = Doubt::very_unsure;
    return value;
}

void add_cells(const sim::DayMap& map, MapModel& model) {
    for (const sim::MapCell& cell : map.cells) {
        if (!cell.told(map.cell_m)) continue;
        if (model.cells.empty()) {
            model.origin_cell = cell.place;
            model.origin = {map.cell_m * cell.place.column, map.cell_m * cell.place.row};
        }
        ShownCell& shown = model.cells.emplace_back();
        shown.place = cell.place;
        for (const MapTopic topic : kTopics)
            shown.values[static_cast<std::size_t>(topic)] = value_of(cell, map.cell_m, topic);
        const sim::EastNorth corner = model.south_west(shown);
        model.whole.take(corner);
        model.whole.take({corner.east_m + map.cell_m, corner.north_m + map.cell_m});
    }
}

void add_scales(MapModel& model) {
    for (const MapTopic topic : kTopics) {
        for (const Units units : {Units::metric, Units::us}) {
            const Unit& unit = unit_of(quantity_of(topic), units);
            std::vector<double> values;
            values.reserve(model.cells.size());
            for (const ShownCell& cell : model.cells)
                values.push_back(unit.per_si * static_cast<double>(cell.of(topic).kgpm2));
            model.scales[static_cast<std::size_t>(topic)][static_cast<std::size_t>(units)] =
                sim::map_scale(std::move(values), unit.decimals);
        }
    }
}

class ToModel {
  public:
    ToModel(const sim::UtmPlane& plane, sim::EastNorth origin) : plane_(plane), origin_(origin) {}
    sim::EastNorth operator()(sim::LatLon place) {
        const sim::EastNorth at = plane_.to_plane(place);
        return {at.east_m - origin_.east_m, at.north_m - origin_.north_m};
    }

  private:
    sim::UtmPlane plane_;  // a copy: it keeps what it has computed
    sim::EastNorth origin_;
};

// Those where something was cut.
void add_fields(const sim::Day& day, const sim::DayMap& map, ToModel& to_model, MapModel& model) {
    for (const sim::Field& field : day.fields) {
        if (std::find(map.fields.begin(), map.fields.end(), field.name) == map.fields.end()) continue;
        const auto number = static_cast<int>(std::find(map.fields.begin(), map.fields.end(), field.name) -
                                             map.fields.begin());
        const bool cut = std::any_of(map.cells.begin(), map.cells.end(), [&](const sim::MapCell& cell) {
            return cell.field == number && cell.told(map.cell_m);
        });
        if (!cut) continue;
        FieldShape& shape = model.fields.emplace_back();
        shape.name = field.name;
        for (const sim::Ring& ring : field.rings) {
            std::vector<sim::EastNorth>& corners = shape.rings.emplace_back();
            for (const sim::LatLon& corner : ring) {
                corners.push_back(to_model(corner));
                shape.box.take(corners.back());
                model.whole.take(corners.back());
            }
        }
    }
}

}  // namespace

Quantity quantity_of(MapTopic topic) {
    return topic == MapTopic::yield ? Quantity::yield : Quantity::ground;
}

const sim::CellFigure& figure_of(MapTopic topic) {
    return topic == MapTopic::yield ? sim::kYieldOfCell : sim::kLossOfCell;
}

const ShownCell* MapModel::cell_at(sim::EastNorth place) const {
    const sim::CellPlace wanted = {
        origin_cell.column + static_cast<std::int32_t>(std::floor(place.east_m / cell_m)),
        origin_cell.row + static_cast<std::int32_t>(std::floor(place.north_m / cell_m))};
    const auto at = std::lower_bound(
        cells.begin(), cells.end(), wanted, [](const ShownCell& cell, const sim::CellPlace& p) {
            return cell.place.row != p.row ? cell.place.row < p.row : cell.place.column < p.column;
        });
    return at != cells.end() && at->place == wanted ? &*at : nullptr;
}

std::optional<MapModel> make_map_model(const sim::Day& day, const sim::DayResult& result) {
    if (!result.map) return std::nullopt;
    const sim::DayMap& map = *result.map;
    MapModel model;
    model.time_zone = day.time_zone;
    model.cell_m = map.cell_m;
    model.convergence_deg = map.plane.convergence_deg();
    add_cells(map, model);
    if (model.cells.empty()) return std::nullopt;
    add_scales(model);
    ToModel to_model(map.plane, model.origin);
    add_fields(day, map, to_model, model);
    for (const sim::MachineResult& machine : result.machines) {
        MachineWay& way = model.machines.emplace_back();
        way.id = machine.id;
        for (const sim::WorkPoint& point : machine.work) {
            if (point.placed) way.track.add(point.time_us, to_model(point.place()));
        }
    }
    for (const sim::MapMark& mark : map.marks) {
        const auto machine = std::find_if(model.machines.begin(), model.machines.end(),
                                          [&mark](const MachineWay& way) { return way.id == mark.machine; });
        model.pins.push_back({mark.kind, static_cast<std::size_t>(machine - model.machines.begin()),
                              to_model(mark.place), mark.start_us, mark.end_us, mark.figure});
    }
    return model;
}

}  // namespace podrate::ui
