// The loss sensor's hits, put beside the crop that they came from.
#pragma once

#include "podrate/filter/delay_line.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// Hits are kept by time; as what was cut comes to the sensor, blocks of some seconds are taken out.
class HitBlocks {
  public:
    // delay_s: from the cut to the sensor.
    explicit HitBlocks(Real delay_s);

    // Hits since the last call, spread over the time since.
    void add(TimeUs time_us, Real new_hits);

    // It is the turn of crop cut at `cut_us`, where the drum should lose that much, kg/s. True where a block
    // is whole: the machine cut throughout, and the sensor spoke.
    bool reach(TimeUs cut_us, Real expected_kgps);

    [[nodiscard]] bool any() const { return any_; }
    [[nodiscard]] TimeUs delay_us() const { return delay_us_; }
    [[nodiscard]] Real hits_per_s() const { return hits_per_s_; }
    [[nodiscard]] Real block_s() const { return block_s_; }
    [[nodiscard]] Real expected_kgps() const { return expected_kgps_; }

  private:
    void begin_block(TimeUs cut_us);
    TimeBins<128> line_;  // of hits where elsewhere it holds area
    TimeUs delay_us_;
    bool any_ = false;
    TimeUs newest_us_ = 0;
    TimeUs known_from_us_ = 0;  // since when it has spoken without a silence
    TimeUs reached_us_ = 0;
    TimeUs block_from_us_ = 0;
    TimeUs block_to_us_ = 0;
    Real expected_kg_ = Real(0);
    Real hits_per_s_ = Real(0);
    Real block_s_ = Real(0);
    Real expected_kgps_ = Real(0);
};

}  // namespace podrate
