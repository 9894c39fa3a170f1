// The speed advised against the one that the truth would advise.
#pragma once

#include <vector>

#include "replay/sink.hpp"
#include "score/true_plant.hpp"

namespace podrate::accuracy {

// Looks at each second of harvest at which a speed is advised.
class SpeedCheck : public sim::ReplaySink {
  public:
    // The plant must outlive it. `limit`: share lost that the speed shall keep below.
    SpeedCheck(const sim::TruePlant& plant, double limit);
    void on_row(const sim::LogRow& row, const Estimate& estimate) override;

    long seconds = 0;  // of harvest
    long advised = 0;
    long right = 0;  // within 5 % of the truth's
    long held = 0;   // the truth's within the 90 % interval

  private:
    const sim::TruePlant& plant_;
    std::vector<double>
        right_mps_;  // highest speed under the limit in the crop of ten minutes about; 0: none
    std::size_t next_ = 0;
};

}  // namespace podrate::accuracy
