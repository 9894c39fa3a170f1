// What is believed of a gang's pace from its books and from what was thought beforehand.
#pragma once

#include <string>
#include <vector>

#include "day/forecast_keys.hpp"
#include "plan/day_parts.hpp"

namespace podrate::sim {

// An hourly rate of events: gamma, by so many events in so many hours, those thought beforehand with them.
struct EventRate {
    double events = 1.0;
    double hours = 1.0;
};

// Lengths of stops: log-normal; its mean known as from `weight` of them.
struct StopLength {
    double ln_mean_s = 0.0;
    double ln_sd = 1.0;
    double weight = 1.0;
};

struct MachineModel {
    std::string id;
    Doing doing = Doing::work;
    double doing_s = 0.0;
    double hopper_kg = 0.0;
    double capacity_kg = 0.0;
    std::vector<double> loads_kg;  // tipped so far
    EventRate short_stops;         // per hour of work
    EventRate breakdowns;
    double harvest_share = 0.8;  // of the work's time; the rest is turning, which no speed shortens
};

struct GangModel {
    std::vector<MachineModel> machines;
    // ln of each machine's kg/s of work, then ln of the factor of the field where they are: jointly normal.
    std::vector<double> ln_mean;
    std::vector<double> ln_root;  // its rows one after another: lower triangle whose square is the covariance
    double field_ln_sd = 0.2;     // of a field to come
    double rate_ln_sd = 0.15;     // from one kWindowS of work to the next
    double drift_ln_sd = 0.0;     // per root of an hour
    EventRate moves;              // of the gang, per hour
    StopLength short_stop;
    StopLength breakdown;
    StopLength move;
    std::vector<Tip> tips;  // of all machines so far
    double wait_s = 120.0;  // mean, thought beforehand
    double load_share = 0.85;
};

inline constexpr double kWindowS = 1800.0;
inline constexpr double kWindowsAlike = 0.3;  // correlation of two that follow one another

GangModel gang_model(const GangBooks& books, const ForecastKeys& keys);

}  // namespace podrate::sim
