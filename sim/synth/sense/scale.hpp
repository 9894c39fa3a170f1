// The weighing of the hopper: one to four cells, and all that shakes and warps them.
#pragma once

#include <array>
#include <complex>

#include "synth/machine/viner_works.hpp"
#include "synth/random.hpp"

namespace podrate::sim {

class Scale {
  public:
    static constexpr int kMostCells = 4;

    // Scenario and machine must outlive it.
    Scale(const Scenario& scenario, const ScenarioMachine& machine);

    // One reading, `dt_s` after the last, of a machine tipped by that much. `gravity_share`: gravity here
    // against where the cells were calibrated.
    void read(double time_s, const VinerTruth& truth, double pitch_deg, double roll_deg, double gravity_share,
              double dt_s);

    [[nodiscard]] int cells() const { return cells_; }
    [[nodiscard]] double cell_kg(int cell) const { return shown_kg_[static_cast<std::size_t>(cell)]; }
    [[nodiscard]] double sum_kg() const;

  private:
    [[nodiscard]] double vibration_kg(const VinerTruth& truth, double dt_s);
    // Faults of the cell before it is shown, and those of what is shown.
    [[nodiscard]] double warped_kg(int cell, double time_s, double kg);
    [[nodiscard]] double dead_kg(int cell, double time_s, double kg);
    [[nodiscard]] double warmth_k(double time_s) const;

    const ScenarioScale& told_;
    Faults faults_;
    Random noise_;
    Random shaking_;
    int cells_;
    double start_hour_;
    std::array<double, kMostCells> gain_{};
    std::array<double, kMostCells> cell_zero_kg_{};
    std::array<double, kMostCells> shown_kg_{};
    double zero_kg_;
    double followed_kg_ = 0.0;  // the load behind the hysteresis
    double tone_phase_rad_ = 0.0;
    double drum_wander_ = 0.0;      // of the drum's speed, as share
    std::complex<double> sway_kg_;  // of the chassis on its tyres; the real part weighs
    double to_next_shock_m_ = 0.0;
};

// Speed of the drum against its rated one: it droops under load.
double drum_speed_share(const VinerTruth& truth, double wander);

}  // namespace podrate::sim
