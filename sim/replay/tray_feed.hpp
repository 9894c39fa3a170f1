// Gives a machine's tray checks to the estimator as they would have come: counted some minutes after.
#pragma once

#include <string>
#include <vector>

#include "day/day.hpp"
#include "log/machine_log.hpp"
#include "log/problem.hpp"

namespace podrate::sim {

class TrayFeed {
  public:
    // Both must outlive it.
    TrayFeed(const Machine& machine, Problems& problems) : machine_(machine), problems_(problems) {}

    // Those that have been counted by then.
    void feed(TimeUs now_us, const SampleTaker& take);
    // The rest, at the log's end.
    void finish(TimeUs now_us, const SampleTaker& take);

  private:
    void give(const TrayCheck& check, TimeUs now_us, const SampleTaker& take);
    const Machine& machine_;
    Problems& problems_;
    std::size_t next_ = 0;
};

}  // namespace podrate::sim
