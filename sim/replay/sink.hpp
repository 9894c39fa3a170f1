// What listens to a replay.
#pragma once

#include "log/log_row.hpp"
#include "podrate/alarm/alarm_panel.hpp"
#include "podrate/estimate.hpp"
#include "podrate/load.hpp"

namespace podrate::sim {

class ReplaySink {
  public:
    virtual ~ReplaySink() = default;
    // After each good row of the log, in order, once the first weight has come.
    virtual void on_row(const LogRow& row, const Estimate& estimate) = 0;
    // Before that: whether it needs yield, loss, advice and outlook of this row. They cost as much as all the
    // rest, and stand as at an earlier row where nobody asks.
    [[nodiscard]] virtual bool asks_all(const LogRow& row) const {
        (void)row;
        return true;
    }
    // When a load has been closed or its newest one revised (same number), before that row's on_row().
    virtual void on_load(const Load& load) { (void)load; }
    // What the alarms looked at each time they were judged, before that row's on_row(); only where a sink
    // asks.
    virtual void on_scene(const AlarmScene& scene) { (void)scene; }
    [[nodiscard]] virtual bool asks_scenes() const { return false; }
    // After the last row; not called where the log was refused.
    virtual void finish() {}
};

}  // namespace podrate::sim
