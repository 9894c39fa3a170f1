// The columns of the shipped day, loaded once for all tests of this program.
#pragma once

#include "series/load_series.hpp"

namespace podrate::ui {

inline const DaySeries& shipped_series() {
    static const DaySeries series = [] {
        const std::atomic<bool> cancel{false};
        return *load_day_series(sim::read_day(PODRATE_SOURCE_DIR "/demo_logs/harrowmere"), nullptr, cancel);
    }();
    return series;
}

}  // namespace podrate::ui
