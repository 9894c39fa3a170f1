// A synthetic day, as told by a scenario file.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "geo/place.hpp"
#include "synth/fault.hpp"

namespace podrate::sim {

struct ScenarioField {
    std::string name;
    std::vector<EastNorth> corners;  // in order, not repeated at the end
    double bout_heading_deg = 0.0;   // clockwise from north
    double headland_m = 12.0;        // strip along the boundary already cut, for turning
    double crop_kgpm2 = 0.5;         // peas standing, mean
    double crop_cv = 0.12;           // spread of that, point to point
    double crop_length_m = 30.0;     // its correlation length
    double slope_deg = 0.0;          // steepest
    double downhill_deg = 0.0;       // direction of that, clockwise from north
    std::string sown;                // YYYY-MM-DD
    double target_tenderometer = 0.0;
};

struct ScenarioMachine {
    std::string id;
    double width_m = 3.3;
    double hopper_capacity_kg = 2000.0;
    int rate_hz = 10;           // rows of its log a second: 10, 5, 2 or 1
    double speed_mps = 0.8;     // what its driver likes
    double speed_spread = 0.1;  // sd of the set speed, as share
    double drum_dead_time_s = 6.0;
    double drum_lag_s = 8.0;
    double told_dead_time_s = 6.0;  // what day.toml says of them
    double told_lag_s = 8.0;
    double haulm_ratio = 4.0;
    double rated_feed_kgps = 8.0;
    double picking_loss_share = 0.04;
    double drum_loss_share = 0.035;
    double feed_steepness_kgps = 3.5;
    double noise_moving_kg = 6.0;  // white, a reading
    double noise_still_kg = 1.2;
    double tone_kg = 3.0;  // amplitude of the drum's shake
    double tone_hz = 3.4;
    double zero_kg = 5.0;        // zero error at the start
    double zero_drift_kg = 3.0;  // per square root of an hour
    double quantum_kg = 0.5;
    double slip_share = 0.01;  // wheel speed reads that much too high
};

struct ScenarioEvent {
    enum class Kind { pause_in_crop, breakdown };
    Kind kind = Kind::pause_in_crop;
    std::string machine;
    double at_s = 0.0;
    double for_s = 0.0;
};

struct ScenarioMove {
    double at_s = 0.0;
    std::string to_field;
};

struct ScenarioTray {
    std::string machine;
    double at_s = 0.0;
};

struct ScenarioMaturity {
    std::string field;
    double at_s = 0.0;
    double tenderometer = 0.0;
};

struct Scenario {
    std::string label;
    std::string date;
    std::string time_zone;
    std::uint64_t seed = 1;
    std::int64_t start_unix_s = 0;
    double hours = 3.0;
    bool compressed = true;             // logs as .csv.zst
    LatLon origin;                      // of the east/north frame
    std::vector<ScenarioField> fields;  // worked in this order
    std::vector<ScenarioMachine> machines;
    std::vector<ScenarioEvent> events;
    std::vector<ScenarioFault> faults;
    std::vector<ScenarioMove> moves;
    std::vector<ScenarioTray> trays;
    std::vector<ScenarioMaturity> maturity;
    double thousand_pea_g = 420.0;
    double tray_area_m2 = 0.5;
    double tray_count_cv = 0.15;
    double plan_tph = 0.0;  // the factory's plan, all machines together; 0: no plan
    double plan_from_s = 0.0;
};

// Throws RefusedInput naming key, value and range.
// `seed`: instead of the file's. A number of a [[machine]] or [[field]] may be a pair [low, high]: drawn
// between, by the seed.
Scenario read_scenario(const std::filesystem::path& path, std::optional<std::uint64_t> seed = std::nullopt);

}  // namespace podrate::sim
