#include "score/true_plant.hpp"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "log/byte_source.hpp"
#include "log/column_reader.hpp"
#include "log/csv_record.hpp"
#include "log/problem.hpp"
#include "score/estimates_at.hpp"
#include "synth/scenario/number_keys.hpp"

namespace podrate::sim {
namespace {

using nlohmann::json;

template <class Keys, class T>
void read_keys(const json& from, const Keys& keys, T& into) {
    for (const auto& key : keys) into.*key.member = from.at(key.name).template get<double>();
}

void read_model(const std::filesystem::path& file, const std::string& id, TruePlant& plant) {
    std::ifstream stream(file, std::ios::binary);
    const json model = json::parse(stream, nullptr, false);
    bool found = false;
    try {
        for (const json& machine : model.at("machines")) {
            if (machine.at("id") != id) continue;
            read_keys(machine, kDrumKeys, plant.drum);
            read_keys(machine, kScaleKeys, plant.scale);
            read_keys(machine, kSensesKeys, plant.senses);
            found = true;
        }
        for (const json& field : model.at("fields"))
            read_keys(field, kFieldKeys, plant.fields.emplace_back());
        if (model.contains("origin_lat_deg"))
            plant.origin =
                LatLon{model.at("origin_lat_deg").get<double>(), model.at("origin_lon_deg").get<double>()};
    } catch (const json::exception&) {
        found = false;
    }
    if (!found)
        throw RefusedInput(
            {file.string(), 0, "does not tell the plant of '" + id + "'", "make the day anew"});
}

bool has_column(const std::filesystem::path& file, const std::string& name) {
    CsvReader csv(open_bytes(file));
    CsvRecord head;
    return csv.next(head) && std::find(head.cells.begin(), head.cells.end(), name) != head.cells.end();
}

constexpr const char* kDrumLoss = "drum_loss_share";
constexpr std::size_t kDrumLossAt = 12;
constexpr const char* kCutGround = "cut_m2";
constexpr const char* kCutPeas = "cut_kg";

}  // namespace

TruePlant read_true_plant(const std::filesystem::path& day_folder, const std::string& id, double width_m) {
    TruePlant plant;
    plant.width_m = width_m;
    read_model(day_folder / "truth" / "model.json", id, plant);
    const std::filesystem::path file = day_folder / "truth" / (id + ".csv");
    plant.drum_loss_known = has_column(file, kDrumLoss);
    std::vector<std::string> columns = {"standing_kgpm2", "state",   "area_rate_m2ps", "field",
                                        "east_m",         "north_m", "speed_mps",      "feed_kgps",
                                        "loss_share",     "unix_s",  "mass_kg",        "flow_kgps"};
    if (plant.drum_loss_known) columns.emplace_back(kDrumLoss);
    plant.swath_known = has_column(file, kCutPeas);
    const std::size_t cut_at = columns.size();
    if (plant.swath_known) columns.insert(columns.end(), {kCutGround, kCutPeas});
    ColumnReader truth(file, columns);
    while (truth.next()) {
        TrueSecond second;
        second.state = state_index(truth.text(1), file);
        const auto state = static_cast<WorkState>(second.state);
        second.standing_kgpm2 = truth.number(0);
        second.area_rate_m2ps = truth.number(2);
        second.field = static_cast<std::size_t>(truth.number(3));
        second.east_m = truth.number(4);
        second.north_m = truth.number(5);
        second.speed_mps = truth.number(6);
        second.feed_kgps = truth.number(7);
        second.loss_share = truth.number(8);
        second.unix_s = truth.number(9);
        second.mass_kg = truth.number(10);
        second.flow_kgps = truth.number(11);
        if (plant.drum_loss_known) second.drum_loss_share = truth.number(kDrumLossAt);
        if (plant.swath_known) {
            second.cut_m2 = truth.number(cut_at);
            second.cut_kg = truth.number(cut_at + 1);
        }
        second.tipping = state == WorkState::tipping;
        second.moving =
            state == WorkState::harvesting || state == WorkState::turning || state == WorkState::travelling;
        if (second.field >= plant.fields.size()) {
            throw RefusedInput({(day_folder / "truth").string(), 0,
                                "names a field that its model does not have", "make the day anew"});
        }
        plant.seconds.push_back(second);
    }
    return plant;
}

}  // namespace podrate::sim
