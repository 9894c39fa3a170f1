// A synthetic day, as told by a scenario file.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "geo/place.hpp"
#include "synth/scenario/fault.hpp"

namespace podrate::sim {

// Something to drive round.
struct ScenarioObstacle {
    EastNorth place;
    double radius_m = 0.0;
};

// The spread and likeness of the crop by default are those at which plots of the size of Nonnecke's (1960)
// vary as his did: tests/crop_likeness shows both.
struct ScenarioField {
    std::string name;
    std::vector<EastNorth> corners;  // in order, not repeated at the end
    std::vector<ScenarioObstacle> obstacles;
    double bout_heading_deg = 0.0;            // clockwise from north
    double headland_m = 12.0;                 // strip along the boundary already cut, for turning
    double crop_kgpm2 = 0.5;                  // peas standing, mean
    double crop_cv = 0.34;                    // spread of that from one part of the field to another, as ln
    double crop_length_m = 25.0;              // its correlation length
    double patch_cv = 0.57;                   // spread within a few paces, as ln
    double patch_length_m = 0.5;              // its correlation length
    double haulm_cv = 0.15;                   // spread of haulm per pea, as ln
    double haulm_follows_crop = -0.53;        // d ln(haulm per pea)/d ln(peas)
    double lodged_share = 0.0;                // of the area
    double lodged_length_m = 12.0;            // of a lodged patch, about
    double lodged_loss_share = 0.15;          // what the reel leaves there besides
    double tenderometer = 0.0;                // at the day's start; 0: not told
    double tenderometer_per_day = 4.0;        // where it does not ripen by heat
    double ripening_pct_per_heat_unit = 0.0;  // of the reading, by heat units above 4.4 °C; 0: not by heat
    double ripening_wander_pct = 1.0;         // sd of the reading a day besides
    double yield_per_point = 0.012;           // growth of the peas standing with each point, as a share
    double slope_deg = 0.0;                   // steepest
    double downhill_deg = 0.0;                // direction of that, clockwise from north
    std::string sown;                         // YYYY-MM-DD
    double target_tenderometer = 0.0;
};

struct ScenarioDrum {
    double dead_time_s = 6.0;
    double lag_s = 8.0;
    double load_share = 0.0;  // how much slower at twice the rated feed, as a share of both
    double haulm_ratio = 4.0;
    double rated_feed_kgps = 8.0;
    double picking_loss_share = 0.04;
    double loss_share = 0.035;  // in the drum, at the rated feed
    double feed_steepness_kgps = 3.5;
};

struct ScenarioDriver {
    double speed_mps = 0.8;     // what the driver likes
    double speed_spread = 0.1;  // sd of the set speed, as share
    double eases_off = 0.0;     // 0: never minds the feed; 1: holds it even
    double pauses_per_h = 0.0;  // in standing crop
    double pause_s = 60.0;
    double breakdowns_per_h = 0.0;
    double breakdown_s = 900.0;
    double breakdown_ln_sd = 0.0;  // of a log-normal's tail about that mean; 0: exponential
};

// Weighing of the hopper.
struct ScenarioScale {
    double cells = 1.0;
    double gain_sd = 0.0;            // of each cell
    double cell_zero_sd_kg = 0.0;    // of each cell
    double zero_kg = 5.0;            // zero error of all, at the start
    double zero_drift_kg = 3.0;      // per square root of an hour
    double hysteresis_kg = 0.0;      // half of how far a load must turn round before the cells follow
    double zero_kg_per_k = 0.0;      // with temperature
    double temperature_swing_k = 8;  // half of the day's range
    double noise_moving_kg = 6.0;    // white, a reading
    double noise_still_kg = 1.2;
    double tone_kg = 3.0;    // amplitude of the drum's shake, at the rated feed
    double tone_hz = 3.4;    // at the drum's rated speed
    double bounce_kg = 0.0;  // sd of the chassis's sway on its tyres at 1 m/s
    double bounce_hz = 1.8;
    double shocks_per_km = 0.0;
    double shock_kg = 60.0;
    double quantum_kg = 0.5;
    double clip_kg = 0.0;  // most that it can show; 0: no end
};

// The other sensors and the logger.
struct ScenarioSenses {
    double rate_hz = 10.0;     // rows of the log a second
    double jitter_s = 0.0;     // sd of a row's time
    double slip_share = 0.01;  // wheel speed reads that much too high
    double slip_sd = 0.0;      // as share, wandering over a minute
    double dead_band_mps = 0.06;
    double place_outages_per_h = 0.0;  // of an hour with a place
    double place_outage_s = 60.0;
    double place_jumps_per_h = 0.0;
    double place_jump_m = 8.0;
    double heading_noise_deg = 0.6;
};

// A sensor behind the drum that counts what strikes it. Where no source is named: common practice, no source.
struct ScenarioHits {
    double per_kg = 0.0;        // hits a kg of peas lost in the drum; 0: no sensor
    double false_per_kg = 0.0;  // hits a kg of feed, by haulm
    double delay_s = 4.0;       // from the cut to the sensor
    // After a hit that it counts it takes no other for so long; those that it misses do not prolong that (the
    // non-paralysable dead time of Knoll, Radiation Detection and Measurement).
    double dead_time_s = 0.0005;
    double gain_sd = 0.1;  // of the hits by peas, as share of the told, wandering over an hour
};

struct ScenarioMachine {
    std::string id;
    bool cells_apart = false;  // the log gives each cell, not their sum
    double width_m = 3.3;
    double overlap_m = 0.0;  // of neighbouring bouts
    double hopper_capacity_kg = 2000.0;
    double told_dead_time_s = 6.0;  // what day.toml says of the drum
    double told_lag_s = 8.0;
    double told_wanted_tph = 0.0;  // load rate wanted of it while it harvests; 0: not told
    double trays_per_h = 0.0;      // of harvesting, besides the trays that are named
    std::string told_besides;      // further lines of its table in day.toml; no scenario file has any
    ScenarioDrum drum;
    ScenarioDriver driver;
    ScenarioScale scale;
    ScenarioSenses senses;
    ScenarioHits hits;
};

struct ScenarioEvent {
    enum class Kind { pause_in_crop, breakdown, rest };
    Kind kind = Kind::pause_in_crop;
    std::string machine;
    double at_s = 0.0;
    double for_s = 0.0;
};

// All machines stop at the end of their bouts and other drivers take over.
struct ScenarioShift {
    double at_s = 0.0;
    double for_s = 600.0;
};

// Without trailers a machine that wants to tip waits a minute or so.
struct ScenarioTrailers {
    double count = 0.0;
    double capacity_kg = 9000.0;
    double round_s = 2400.0;  // to the factory and back
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
    double tenderometer = 0.0;  // 0: as the field's truth, with a reading's error
};

// Air temperatures by the day about the scenario's date.
struct ScenarioWeather {
    double days_before = 90.0;
    double days_after = 6.0;  // forecast
    double min_c = 10.0;      // on the scenario's date, in the mean of years
    double max_c = 21.0;
    double warming_c_per_day = 0.1;
    double spread_c = 2.0;       // sd of a day about the season
    double forecast_sd_c = 1.5;  // of a forecast day
};

struct Scenario {
    std::string label;
    std::string date;
    std::string time_zone;
    std::uint64_t seed = 1;
    std::int64_t start_unix_s = 0;
    double hours = 3.0;
    bool compressed = true;             // logs as .csv.zst
    bool truth_apart = false;           // the truth tells the drum's part of the loss, too
    bool truth_swath = false;           // and the ground and peas cut so far
    LatLon origin;                      // of the east/north frame
    std::vector<ScenarioField> fields;  // worked in this order
    std::vector<ScenarioMachine> machines;
    std::vector<ScenarioEvent> events;
    std::vector<ScenarioFault> faults;
    std::vector<ScenarioShift> shifts;
    std::vector<ScenarioMove> moves;
    std::vector<ScenarioTray> trays;
    std::vector<ScenarioMaturity> maturity;
    ScenarioTrailers trailers;
    std::optional<ScenarioWeather> weather;
    double thousand_pea_g = 420.0;
    double tray_area_m2 = 0.5;
    double tray_count_cv = 0.15;
    double plan_tph = 0.0;  // the factory's plan, all machines together; 0: no plan
    double plan_from_s = 0.0;
    double plan_until_s = 0.0;    // where it goes on beyond the logs; 0: to their end
    double plan_later_tph = 0.0;  // from the logs' end on; 0: as before
};

// Throws RefusedInput naming key, value and range.
// `seed`: instead of the file's. A number of a [[machine]] or [[field]] may be a pair [low, high]: drawn
// between, by the seed.
Scenario read_scenario(const std::filesystem::path& path, std::optional<std::uint64_t> seed = std::nullopt);

}  // namespace podrate::sim
