// From rows of a log to samples of the estimator.
#pragma once

#include "log/log_reader.hpp"
#include "log/log_row.hpp"
#include "log/problem.hpp"
#include "podrate/estimator.hpp"

namespace podrate::sim {

// Feeds each value of a row as a typed sample: tilt, place, heading, speed, reel, weight. Where a log has
// hopper_kg, its cell columns are passed over. A value outside its channel's range is reported and left out;
// the rest is used.
class SampleFeed {
  public:
    SampleFeed(const std::string& file, const LogReader& reader, Problems& problems);
    void feed(const LogRow& row, Estimator& estimator);

  private:
    void give(const Sample& sample, const LogRow& row, const char* what, Estimator& estimator);
    void feed_weight(const LogRow& row, Estimator& estimator);

    std::string file_;
    Problems& problems_;
    Column weights_[4] = {};
    int weight_count_ = 0;
};

}  // namespace podrate::sim
