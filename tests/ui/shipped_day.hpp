// The shipped day, opened once for all tests of this program.
#pragma once

#include "model/open_day.hpp"

namespace podrate::ui {

inline std::shared_ptr<const OpenDay> shipped_day() {
    static const std::shared_ptr<const OpenDay> day = [] {
        const std::atomic<bool> cancel{false};
        return open_day(PODRATE_SOURCE_DIR "/demo_logs/harrowmere", nullptr, cancel);
    }();
    return day;
}

inline const Recording& shipped_recording() {
    return shipped_day()->recording;
}

inline const DaySeries& shipped_series() {
    return shipped_day()->series;
}

}  // namespace podrate::ui
