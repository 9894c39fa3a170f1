// The ledger of a machine's time: stretches of one kind each, without hole or overlap.
#pragma once

#include <vector>

#include "geo/place.hpp"
#include "hours/time_kind.hpp"
#include "replay/sink.hpp"

namespace podrate::sim {

struct Stretch {
    TimeUs start_us = 0;
    TimeUs end_us = 0;
    TimeKind kind = TimeKind::stopped;
    bool place_known = false;
    LatLon place;               // where it began
    double harvested_kg = 0.0;  // that reached the hopper in it; unknown while no log tells, and then 0

    [[nodiscard]] double seconds() const { return static_cast<double>(end_us - start_us) / 1e6; }
};

// From the first row with a weight to the last row. As in StateClock the earlier row's state holds until the
// next, and a gap longer than kLongestGapS is a stretch without log.
class StretchTrack : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    [[nodiscard]] const std::vector<Stretch>& stretches() const { return stretches_; }

  private:
    void see_place(const LogRow& row);
    void open(TimeUs start_us, TimeKind kind);

    std::vector<Stretch> stretches_;
    bool any_ = false;
    TimeUs last_us_ = 0;
    WorkState last_ = WorkState::stopped;
    double last_kg_ = 0.0;
    bool placed_ = false;
    TimeUs placed_us_ = 0;
    LatLon place_;
};

// Seconds by kind of the part between two moments.
KindSeconds seconds_by_kind(const std::vector<Stretch>& stretches, TimeUs from_us, TimeUs to_us);
// Of all of it.
KindSeconds seconds_by_kind(const std::vector<Stretch>& stretches);

}  // namespace podrate::sim
