// A sensor behind the drum that counts the peas, and some of the haulm, that strike it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <deque>
#include <string>

#include "podrate/math/elementary.hpp"
#include "synth/random.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

class LossSensor {
  public:
    static constexpr double kGainMemoryS = 3600.0;

    LossSensor(const ScenarioHits& told, std::uint64_t seed, const std::string& id)
        : told_(told),
          strikes_(seed, "hits " + id),
          wanders_(seed, "hits gain " + id),
          ln_gain_(ln_sd() * wanders_.normal()),
          strikes_to_go_(strikes_.exponential(1.0)) {}

    // What was lost in the drum and taken in, kg/s, in the `step_s` that end at that time.
    void pass(double time_s, double drum_lost_kgps, double feed_kgps, double step_s) {
        if (told_.per_kg <= 0.0) return;
        ln_gain_ = wanders_.wander(ln_gain_, ln_sd(), kGainMemoryS, step_s);
        const double at_sensor_s = time_s + told_.delay_s;
        coming_.push_back({at_sensor_s - step_s, at_sensor_s,
                           told_.per_kg * drum_lost_kgps * gain() + told_.false_per_kg * feed_kgps});
    }

    // Counted from the start until that time, which must not decrease from call to call.
    long hits_by(double time_s) {
        while (!coming_.empty() && coming_.front().from_s < time_s) {
            Stretch& now = coming_.front();
            run(now, std::min(now.until_s, time_s));
            if (now.until_s > time_s) break;
            coming_.pop_front();
        }
        return hits_;
    }

    // Hits a pea against the told: the mean over all time is 1.
    [[nodiscard]] double gain() const { return math::exp(ln_gain_ - 0.5 * ln_sd() * ln_sd()); }

  private:
    // A time over which strikes come evenly.
    struct Stretch {
        double from_s;
        double until_s;
        double strikes_ps;
    };

    // The spread of ln gain that gives the gain the told one.
    [[nodiscard]] double ln_sd() const { return std::sqrt(math::ln(1.0 + told_.gain_sd * told_.gain_sd)); }

    // Strikes come at random: between two, the strikes expected are spread exponentially about one.
    void run(Stretch& now, double until_s) {
        while (now.strikes_ps * (until_s - now.from_s) > strikes_to_go_) {
            now.from_s += strikes_to_go_ / now.strikes_ps;
            strikes_to_go_ = strikes_.exponential(1.0);
            if (now.from_s < blind_until_s_) continue;
            blind_until_s_ = now.from_s + told_.dead_time_s;
            ++hits_;
        }
        strikes_to_go_ -= now.strikes_ps * (until_s - now.from_s);
        now.from_s = until_s;
    }

    ScenarioHits told_;
    Random strikes_;
    Random wanders_;
    double ln_gain_;
    double strikes_to_go_;  // until the next, in strikes expected
    std::deque<Stretch> coming_;
    double blind_until_s_ = 0.0;
    long hits_ = 0;
};

}  // namespace podrate::sim
