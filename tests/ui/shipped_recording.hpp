// The shipped day, replayed once for all tests of this program.
#pragma once

#include "model/recording.hpp"

namespace podrate::ui {

inline const Recording& shipped_recording() {
    static const Recording recording = record_day(PODRATE_SOURCE_DIR "/demo_logs/harrowmere", nullptr);
    return recording;
}

}  // namespace podrate::ui
