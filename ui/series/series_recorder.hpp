// Writes a machine's replay into columns.
#pragma once

#include <atomic>

#include "replay/sink.hpp"
#include "series/day_series.hpp"

namespace podrate::ui {

// Thrown out of a replay that has been called off; caught by open_day().
struct LoadCancelled {};

class SeriesRecorder : public sim::ReplaySink {
  public:
    // Both must outlive it. Times count from the machine's first row, in whole milliseconds.
    SeriesRecorder(MachineSeries& to, const std::atomic<bool>& cancel);

    // Throws LoadCancelled once `cancel` is set.
    void on_row(const sim::LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const sim::LogRow& row) const override;
    void finish() override;

  private:
    Column& column(Measure measure) { return to_.columns[static_cast<std::size_t>(measure)]; }
    StepColumn& step(StepMeasure measure) { return to_.steps[static_cast<std::size_t>(measure)]; }
    void add(Measure measure, double value) {
        column(measure).add(to_.kept_ms, kept_, now_ms_, static_cast<float>(value));
    }
    // Of a bus the rows of weights.
    static bool keeps(const sim::LogRow& row) { return !row.lone || row.holds_weight(); }
    void add_with_sd(Measure measure, Real value, Real sd);
    void add_ranged(Measure measure, Real value, Real low, Real high);
    void add_told(const Estimate& estimate);
    void add_channels(const sim::LogRow& row);
    void add_hits(const sim::LogRow& row);
    void add_estimates(const Estimate& estimate);

    MachineSeries& to_;
    const std::atomic<bool>& cancel_;
    Millis now_ms_ = 0;
    TimeUs told_us_ = 0;
    bool kept_ = false;  // the row at hand is one of to_.kept_ms
    bool hits_known_ = false;
    double hits_ = 0.0;
    TimeUs hits_us_ = 0;
};

}  // namespace podrate::ui
