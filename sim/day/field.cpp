#include "day/field.hpp"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "day/calendar.hpp"
#include "geo/geodesy.hpp"

namespace podrate::sim {
namespace {

using nlohmann::json;

// RFC 7946: [longitude, latitude, ...], the last corner repeats the first.
Ring ring_of(const json& corners) {
    Ring ring;
    for (const json& corner : corners) {
        const double lon_deg = corner.at(0).get<double>();
        const double lat_deg = corner.at(1).get<double>();
        if (std::abs(lat_deg) > 90.0 || std::abs(lon_deg) > 180.0)
            throw std::out_of_range("corner off the globe");
        ring.push_back({lat_deg, lon_deg});
    }
    if (ring.size() > 1 && ring.front().lat_deg == ring.back().lat_deg &&
        ring.front().lon_deg == ring.back().lon_deg) {
        ring.pop_back();
    }
    if (ring.size() < 3) throw std::length_error("ring of fewer than three corners");
    return ring;
}

void add_polygon(const json& rings, Field& field) {
    double area_m2 = 0.0;
    for (const json& corners : rings) {
        const Ring ring = ring_of(corners);
        const double size_m2 = std::abs(ring_area_m2(ring));
        area_m2 +=
            area_m2 == 0.0 ? size_m2 : -size_m2;  // the first ring is the outer one, the rest are holes
        field.rings.push_back(ring);
    }
    field.area_ha += area_m2 / 1e4;
}

// When it was sown and at which reading it is wanted. A date or target that can't be one is passed over.
void add_ripeness(const json& properties, Field& field) {
    constexpr double kLeastTarget = 50.0;
    constexpr double kMostTarget = 250.0;
    if (properties.contains("sown") && properties["sown"].is_string()) {
        const std::string sown = properties["sown"].get<std::string>();
        if (day_number(sown)) field.sown = sown;
    }
    for (const char* name : {"target_tenderometer", "target maturity", "target_maturity"}) {
        if (!properties.contains(name) || !properties[name].is_number()) continue;
        const double target = properties[name].get<double>();
        if (target >= kLeastTarget && target <= kMostTarget) field.target_tenderometer = target;
    }
}

Field field_of(const json& feature) {
    Field field;
    const json properties =
        feature.is_object() && feature.contains("properties") ? feature["properties"] : json::object();
    if (properties.is_object() && properties.contains("name") && properties["name"].is_string()) {
        field.name = properties["name"].get<std::string>();
    }
    if (properties.is_object()) add_ripeness(properties, field);
    const json& geometry = feature.at("geometry");
    const std::string type = geometry.at("type").get<std::string>();
    if (type == "Polygon") {
        add_polygon(geometry.at("coordinates"), field);
    } else if (type == "MultiPolygon") {
        for (const json& polygon : geometry.at("coordinates")) add_polygon(polygon, field);
    } else {
        throw std::invalid_argument("geometry is a " + type + ", not a polygon");
    }
    return field;
}

}  // namespace

std::vector<Field> read_fields(const std::filesystem::path& path, Problems& problems) {
    std::vector<Field> fields;
    std::ifstream stream(path, std::ios::binary);
    const json document = json::parse(stream, nullptr, false);
    if (document.is_discarded() || !document.is_object() || !document.contains("features") ||
        !document["features"].is_array()) {
        problems.add({path.string(), 0, "is no GeoJSON FeatureCollection (RFC 7946)",
                      "the day is worked without field boundaries; export the fields anew"});
        return fields;
    }
    int number = 0;
    for (const json& feature : document["features"]) {
        ++number;
        try {
            Field field = field_of(feature);
            if (field.name.empty()) field.name = "field " + std::to_string(number);
            fields.push_back(std::move(field));
        } catch (const std::exception& error) {
            problems.add({path.string(), 0,
                          "feature " + std::to_string(number) + " can't be used: " + error.what(),
                          "that field skipped"});
        }
    }
    return fields;
}

}  // namespace podrate::sim
