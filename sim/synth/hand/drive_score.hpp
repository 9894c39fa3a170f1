// What a drive by hand came to: each figure's truth beside what was told of it, and where the time went.
#pragma once

#include <array>
#include <cstdint>
#include <deque>

#include "podrate/estimate.hpp"
#include "synth/machine/viner_works.hpp"

namespace podrate::sim {

enum class DriveFigure : std::uint8_t { rate, yield, loss, hopper };
inline constexpr std::size_t kDriveFigures = 4;

// In kg/s, kg/m2, shares or kg.
struct TruthBeside {
    bool known = false;  // false: there is nothing to compare now
    double truth = 0.0;
    double told = 0.0;
    double low = 0.0;  // of the 90 % range
    double high = 0.0;

    [[nodiscard]] bool holds() const { return truth >= low && truth <= high; }
};

class DriveScore {
  public:
    explicit DriveScore(double drum_dead_time_s) : dead_s_(drum_dead_time_s) {}

    // Each whole second. `told`: nullptr where nothing is known now.
    void second(const VinerTruth& truth, bool blocked, const Estimate* told);

    [[nodiscard]] const TruthBeside& beside(DriveFigure figure) const {
        return beside_[static_cast<std::size_t>(figure)];
    }
    // Seconds in which the figure was compared, and of these such that its range held the truth.
    [[nodiscard]] long compared_s(DriveFigure figure) const {
        return compared_[static_cast<std::size_t>(figure)];
    }
    [[nodiscard]] long held_s(DriveFigure figure) const { return held_[static_cast<std::size_t>(figure)]; }
    [[nodiscard]] long seconds() const { return seconds_; }
    [[nodiscard]] long standing_s() const { return standing_s_; }  // without tips
    [[nodiscard]] long blocked_s() const { return blocked_s_; }
    // Share of the peas met so far that was lost; 0 before any.
    [[nodiscard]] double mean_loss() const { return mean_loss_; }

  private:
    struct Cut {
        bool any = false;
        double yield_kgpm2 = 0.0;
        double loss_share = 0.0;
        double speed_mps = 0.0;
    };
    void compare(DriveFigure figure, const TruthBeside& now);
    [[nodiscard]] double true_yield() const;
    [[nodiscard]] double true_loss() const;

    double dead_s_;
    std::deque<Cut> cuts_;  // of the last seconds, the newest last
    std::array<TruthBeside, kDriveFigures> beside_;
    std::array<long, kDriveFigures> compared_{};
    std::array<long, kDriveFigures> held_{};
    long seconds_ = 0;
    long standing_s_ = 0;
    long blocked_s_ = 0;
    double mean_loss_ = 0.0;
};

}  // namespace podrate::sim
