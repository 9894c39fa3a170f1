// The speed that is right, and what the next half kilometre an hour costs.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"

namespace podrate {

// A speed with its 90 % interval, m/s.
struct SpeedRange {
    bool known = false;
    Real speed_mps = Real(0);
    Real low_mps = Real(0);
    Real high_mps = Real(0);
};

// What keeps the speed from being another.
enum class Binding : std::uint8_t {
    unsure,          // nothing is advised: too little is known
    loss_limit,      // faster would lose more than the limit
    wanted_rate,     // faster would bring more than is wanted
    machine_limits,  // the machine's slowest or fastest
};

const char* name_of(Binding binding);

// What another speed would change, per step of kSpeedStepMps.
struct SpeedStep {
    Real gained_kgps = Real(0);   // load rate
    Real ground_kgpm2 = Real(0);  // peas left on the ground
};

inline constexpr Real kSpeedStepMps = Real(0.5 / 3.6);  // 0.5 km/h

struct Advice {
    Binding binding = Binding::unsure;
    SpeedRange speed;        // advised: moves slowly, within the machine's limits
    SpeedRange under_limit;  // highest that keeps the loss under its limit
    SpeedRange for_rate;     // that meets the wanted load rate
    bool past_fold = false;  // more speed would bring fewer peas
    SpeedStep faster;        // from the present speed
    SpeedStep slower;
};

}  // namespace podrate
