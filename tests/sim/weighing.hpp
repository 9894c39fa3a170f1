// A scale under test, and what its readings are made of.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "synth/sense/scale.hpp"

namespace podrate::test {

using sim::Scale;
using sim::Scenario;
using sim::ScenarioFault;
using sim::ScenarioMachine;
using sim::ScenarioScale;
using sim::VinerTruth;

// Five standard deviations of chance: with fixed seeds the outcome is fixed too, so these hold or do not.
inline constexpr double kSigmas = 5.0;
inline constexpr double kPi = 3.14159265358979324;
inline constexpr double kStepS = 0.1;

// A scale without any error.
inline ScenarioScale perfect(double cells = 1.0) {
    ScenarioScale told;
    told.cells = cells;
    told.zero_kg = 0.0;
    told.zero_drift_kg = 0.0;
    told.noise_moving_kg = 0.0;
    told.noise_still_kg = 0.0;
    told.tone_kg = 0.0;
    told.quantum_kg = 0.0;
    return told;
}

// A machine's scale and the time that runs on with its readings.
class Weighing {
  public:
    Weighing(const Weighing&) = delete;
    Weighing& operator=(const Weighing&) = delete;
    explicit Weighing(const ScenarioScale& told, std::uint64_t seed = 1,
                      const std::vector<ScenarioFault>& faults = {}, double start_hour = 6.0,
                      double step_s = kStepS)
        : machine_(machine_of(told)),
          scenario_(scenario_of(seed, faults, start_hour)),
          scale_(scenario_, machine_),
          step_s_(step_s) {}

    double read(double load_kg, double speed_mps = 0.0, double pitch_deg = 0.0, double roll_deg = 0.0) {
        truth_.mass_kg = load_kg;
        truth_.speed_mps = speed_mps;
        scale_.read(from_s_ + rows_ * step_s_, truth_, pitch_deg, roll_deg, gravity_share_, step_s_);
        ++rows_;
        return scale_.sum_kg();
    }
    [[nodiscard]] const Scale& scale() const { return scale_; }
    VinerTruth& truth() { return truth_; }
    void go_to(double time_s) {
        from_s_ = time_s;
        rows_ = 0;
    }
    void weigh_under(double gravity_share) { gravity_share_ = gravity_share; }

  private:
    static ScenarioMachine machine_of(const ScenarioScale& told) {
        ScenarioMachine machine;
        machine.id = "viner_1";
        machine.scale = told;
        return machine;
    }
    static Scenario scenario_of(std::uint64_t seed, const std::vector<ScenarioFault>& faults,
                                double start_hour) {
        Scenario scenario;
        scenario.seed = seed;
        scenario.faults = faults;
        scenario.start_unix_s = 1751328000 + std::llround(3600.0 * start_hour);  // midnight, and so much
        return scenario;
    }

    ScenarioMachine machine_;
    Scenario scenario_;  // the scale looks at its faults
    Scale scale_;
    VinerTruth truth_;
    double step_s_;
    double from_s_ = 0.0;
    int rows_ = 0;  // since then
    double gravity_share_ = 1.0;
};

struct Spread {
    double mean = 0.0;
    double sd = 0.0;
    std::vector<double> likeness;  // of readings so many rows apart
};

inline Spread spread_of(const std::vector<double>& values, std::size_t lags = 0) {
    Spread spread;
    const auto count = static_cast<double>(values.size());
    for (const double value : values) spread.mean += value / count;
    double variance = 0.0;
    for (const double value : values) variance += (value - spread.mean) * (value - spread.mean) / count;
    spread.sd = std::sqrt(variance);
    for (std::size_t lag = 1; lag <= lags; ++lag) {
        double sum = 0.0;
        for (std::size_t i = lag; i < values.size(); ++i)
            sum += (values[i] - spread.mean) * (values[i - lag] - spread.mean);
        spread.likeness.push_back(sum / count / variance);
    }
    return spread;
}

inline std::vector<double> readings_of(Weighing& weighing, int count, double speed_mps,
                                       double load_kg = 0.0) {
    std::vector<double> readings;
    for (int i = 0; i < count; ++i) readings.push_back(weighing.read(load_kg, speed_mps));
    return readings;
}

}  // namespace podrate::test
