// How ripe a field is and will be: its readings, what is commonly known of their rise, and the heat.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "day/maturity_keys.hpp"
#include "maturity/heat_clock.hpp"

namespace podrate::sim {

// 5, 50 and 95 % of what is believed.
struct Believed {
    double low = 0.0;
    double middle = 0.0;
    double high = 0.0;
};

// ln of the reading rises by a rate times the clock's units and wanders besides (a random walk). The rate is
// log-normal beforehand; over a grid of rates the level follows in closed form (Kalman filter and smoother of
// a local level), and each rate is weighed by how well it tells the readings.
class Ripening {
  public:
    // `readings` of one field in order of time, at least one; nothing is drawn, so the same comes of the
    // same.
    Ripening(std::vector<MaturityReading> readings, std::shared_ptr<const HeatClock> clock,
             const MaturityKeys& keys);

    [[nodiscard]] const std::vector<MaturityReading>& readings() const { return readings_; }
    [[nodiscard]] const HeatClock& clock() const { return *clock_; }
    // What a reading is taken to be off by, points: as told, or more where the readings contradict one
    // another.
    [[nodiscard]] double reading_sd() const { return reading_sd_; }

    // What a reading of the whole field would be.
    [[nodiscard]] Believed at(double unix_s) const;
    // Chance that it is `points` or more.
    [[nodiscard]] double chance_above(double unix_s, double points) const;
    // When it comes to `points`. -infinity: before the first reading; infinity: not before the clock's end.
    [[nodiscard]] Believed when(double points) const;
    // Rise at a reading of 100, points per unit of the clock.
    [[nodiscard]] Believed rate() const;

    struct MeanSd {
        double mean = 0.0;
        double sd = 0.0;
    };
    // Of `value` of the field's readings at two times, none before the last reading, the second not before
    // the first: what happens between them is weighed as one.
    [[nodiscard]] MeanSd expect(double first_s, double second_s,
                                const std::function<double(double first, double second)>& value) const;

  private:
    struct Level {
        double mean = 0.0;
        double variance = 0.0;
    };
    struct Rate {
        double per_unit = 0.0;  // of ln reading
        double weight = 0.0;
        double misfit = 0.0;  // squares of the readings' surprises over their variances, without the first's
        std::vector<Level> so_far;     // at each reading, by it and those before
        std::vector<Level> from_then;  // by it and those after
    };
    void learn(double usual);
    void weigh(Rate& rate) const;
    [[nodiscard]] Level level_at(const Rate& rate, double unix_s) const;
    [[nodiscard]] double wander(double from_s, double to_s) const;
    [[nodiscard]] double crossed(double share, double points) const;

    std::vector<MaturityReading> readings_;
    std::shared_ptr<const HeatClock> clock_;
    double reading_sd_;
    std::vector<Rate> rates_;
};

}  // namespace podrate::sim
