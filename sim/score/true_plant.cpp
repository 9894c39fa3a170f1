#include "score/true_plant.hpp"

#include <fstream>
#include <nlohmann/json.hpp>

#include "log/column_reader.hpp"
#include "log/problem.hpp"
#include "podrate/work/work_state.hpp"

namespace podrate::sim {
namespace {

using nlohmann::json;

TrueMachine machine_of(const json& j) {
    TrueMachine m;
    m.rate_hz = j.at("rate_hz").get<double>();
    m.dead_time_s = j.at("drum_dead_time_s").get<double>();
    m.lag_s = j.at("drum_lag_s").get<double>();
    m.haulm_ratio = j.at("haulm_ratio").get<double>();
    m.rated_feed_kgps = j.at("rated_feed_kgps").get<double>();
    m.picking_loss_share = j.at("picking_loss_share").get<double>();
    m.drum_loss_share = j.at("drum_loss_share").get<double>();
    m.feed_steepness_kgps = j.at("feed_steepness_kgps").get<double>();
    m.noise_moving_kg = j.at("noise_moving_kg").get<double>();
    m.noise_still_kg = j.at("noise_still_kg").get<double>();
    return m;
}

void read_model(const std::filesystem::path& file, const std::string& id, TruePlant& plant) {
    std::ifstream stream(file, std::ios::binary);
    const json model = json::parse(stream, nullptr, false);
    bool found = false;
    try {
        for (const json& machine : model.at("machines")) {
            if (machine.at("id") != id) continue;
            plant.machine = machine_of(machine);
            found = true;
        }
        for (const json& field : model.at("fields")) {
            plant.crops.push_back(
                {field.at("crop_cv").get<double>(), field.at("crop_length_m").get<double>()});
        }
    } catch (const json::exception&) {
        found = false;
    }
    if (!found)
        throw RefusedInput(
            {file.string(), 0, "does not tell the plant of '" + id + "'", "make the day anew"});
}

}  // namespace

TruePlant read_true_plant(const std::filesystem::path& day_folder, const std::string& id, double width_m) {
    TruePlant plant;
    read_model(day_folder / "truth" / "model.json", id, plant);
    ColumnReader truth(day_folder / "truth" / (id + ".csv"),
                       {"standing_kgpm2", "state", "area_rate_m2ps", "field", "east_m", "north_m"});
    while (truth.next()) {
        TrueSecond second;
        const std::string_view state = truth.text(1);
        second.standing_kgpm2 = truth.number(0);
        second.area_rate_m2ps = truth.number(2);
        second.field = static_cast<std::size_t>(truth.number(3));
        second.east_m = truth.number(4);
        second.north_m = truth.number(5);
        second.width_m = width_m;
        second.tipping = state == name_of(WorkState::tipping);
        second.moving = state == name_of(WorkState::harvesting) || state == name_of(WorkState::turning) ||
                        state == name_of(WorkState::travelling);
        if (second.field >= plant.crops.size()) {
            throw RefusedInput({(day_folder / "truth").string(), 0,
                                "names a field that its model does not have", "make the day anew"});
        }
        plant.seconds.push_back(second);
    }
    return plant;
}

}  // namespace podrate::sim
