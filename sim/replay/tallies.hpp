// Sums over a replay: seconds by state, minutes.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "replay/sink.hpp"

namespace podrate::sim {

// Between two rows the earlier row's state holds; a gap longer than this is time without data.
inline constexpr double kLongestGapS = 10.0;

class StateClock : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    [[nodiscard]] double seconds(WorkState state) const { return seconds_[static_cast<std::size_t>(state)]; }
    [[nodiscard]] double seconds_without_data() const { return blank_s_; }

  private:
    std::array<double, kWorkStates> seconds_{};
    double blank_s_ = 0.0;
    bool any_ = false;
    TimeUs last_us_ = 0;
    WorkState last_ = WorkState::stopped;
};

// State at the end of each minute of the clock, for timelines.
struct Minute {
    std::int64_t minute = 0;  // unix time / 60 s, of the minute that ended
    double harvested_kg = 0.0;
    double mass_kg = 0.0;
    double area_m2 = 0.0;
    WorkState state = WorkState::stopped;  // the state that filled most of the minute
};

class MinuteTrack : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    void finish() override;
    [[nodiscard]] const std::vector<Minute>& minutes() const { return minutes_; }

  private:
    void close_minute();
    std::vector<Minute> minutes_;
    Minute open_;
    std::array<int, kWorkStates> rows_in_state_{};
    bool any_ = false;
};

}  // namespace podrate::sim
