// Pauses in standing crop: where they leave a heap of haulm, and what surges in when work goes on.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"
#include "podrate/sample.hpp"
#include "podrate/work/work_state.hpp"

namespace podrate {

struct Pause {
    std::uint32_t number = 0;  // 1, 2, ... in the order they ended
    TimeUs start_us = 0;
    TimeUs end_us = 0;
    std::int32_t lat_e7 = 0;
    std::int32_t lon_e7 = 0;
    bool place_known = false;
    // Haulm that left the running drum on one spot: what it held when the machine stopped, kg.
    Real heap_kg = Real(0);
    // Peas that came in the half minute after it beyond what the area cut then lets expect, kg; may be
    // negative.
    Real surge_kg = Real(0);
    bool surge_known = false;  // false until that half minute is over
};

class PauseWatch {
  public:
    struct Scene {
        TimeUs time_us = 0;
        WorkState state = WorkState::stopped;
        Real haulm_held_kg = Real(0);  // in the drum at the present feed
        Real came_kg = Real(0);        // into the hopper since the run began
        Real expected_kg = Real(0);    // what the area cut since then lets expect
        std::int32_t lat_e7 = 0;
        std::int32_t lon_e7 = 0;
        bool place_known = false;
    };

    // Returns true when a pause has ended, or its surge has become known.
    bool watch(const Scene& scene);

    // The newest that has ended.
    [[nodiscard]] const Pause& last() const { return last_; }
    // Numbers go on after a power cut.
    void resume(std::uint32_t pauses) { last_.number = pauses; }

  private:
    void follow_haulm(const Scene& scene);
    bool close_surge(const Scene& scene);
    Pause open_;
    Pause last_;
    bool pausing_ = false;
    bool surging_ = false;
    Real haulm_before_kg_ = Real(0);
    TimeUs followed_us_ = 0;
    Real came_then_kg_ = Real(0);
    Real expected_then_kg_ = Real(0);
};

}  // namespace podrate
