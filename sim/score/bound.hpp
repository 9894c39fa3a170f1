// The best that any estimator could do: the posterior Cramer-Rao bound of the true model.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace podrate::sim {

// What the plant of one machine was.
struct TrueMachine {
    double rate_hz = 10.0;  // weight readings a second
    double dead_time_s = 6.0;
    double lag_s = 8.0;
    double haulm_ratio = 4.0;
    double rated_feed_kgps = 8.0;
    double picking_loss_share = 0.04;
    double drum_loss_share = 0.035;
    double feed_steepness_kgps = 3.5;
    double noise_moving_kg = 6.0;  // white, a reading
    double noise_still_kg = 1.2;
};

struct TrueCrop {
    double cv = 0.12;
    double length_m = 30.0;
};

// One second of truth.
struct TrueSecond {
    double area_rate_m2ps = 0.0;
    double standing_kgpm2 = 0.0;
    double east_m = 0.0;
    double north_m = 0.0;
    double width_m = 3.3;
    std::size_t field = 0;
    bool moving = false;
    bool tipping = false;
};

struct FlowBound {
    std::vector<double> filter_variance;    // of the flow, (kg/s)2, second by second: from the past alone
    std::vector<double> smoother_variance;  // from past and future
};

// Covariance recursion of the extended Kalman filter linearised along the truth, on [mass, flow, ln crop],
// told every constant: for an (almost) linear model with Gaussian noise that is the posterior Cramer-Rao
// bound (Tichavsky, Muravchik & Nehorai 1998). Smoother: the fixed-interval recursion of Rauch, Tung &
// Striebel on the same model.
FlowBound flow_bound(const TrueMachine& machine, const std::vector<TrueCrop>& crops,
                     const std::vector<TrueSecond>& seconds);

}  // namespace podrate::sim
