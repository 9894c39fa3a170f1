// Watches the cells of a scale against one another, and does without one that has died.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// Each cell's reading is fitted to the sum of the others (a straight line, forgetting over some minutes). One
// that repeats to the last digit while the others tell of peas is dead, whether stuck, at the end of its
// scale or torn off: from then on that line stands in for it, until it moves again and agrees.
class CellWatch {
  public:
    // Sum of the cells as read or, for a dead one, as the others tell, kg.
    Real sum_kg(const Sample& weight);

    [[nodiscard]] bool any_dead() const { return dead_ != 0; }
    // Doubt of the last sum for what is stood in for, kg2.
    [[nodiscard]] Real doubt_kg2() const { return doubt_kg2_; }

    [[nodiscard]] std::uint8_t dead() const { return static_cast<std::uint8_t>(dead_); }
    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from, TimeUs now_us);
    void resume_dead(std::uint8_t dead);

  private:
    static constexpr int kMostCells = 4;
    struct Cell {
        Real last_kg = Real(0);
        Real others_then_kg = Real(0);  // the sum of the others when the reading began to repeat
        TimeUs same_since_us = 0;
        Real step_kg = Real(0);  // the least that it ever changed by: how coarse it is
        Real mean_kg = Real(0);
        Real others_mean_kg = Real(0);
        Real spread_kg2 = Real(0);    // of the others
        Real together_kg2 = Real(0);  // covariance with them
    };
    [[nodiscard]] Real expected_kg(const Cell& cell, Real others_kg) const;
    void learn(const Sample& weight, Real read_kg);
    void judge(int index, TimeUs time_us, Real kg, Real others_kg);

    Cell cells_[kMostCells];
    int count_ = 0;
    unsigned dead_ = 0;  // a bit for each cell
    TimeUs learnt_us_ = 0;
    Real doubt_kg2_ = Real(0);
};

}  // namespace podrate
