// From rows of a CSV log to samples of the estimator.
#pragma once

#include <string>

#include "log/log_reader.hpp"
#include "log/log_row.hpp"
#include "log/machine_log.hpp"
#include "log/problem.hpp"

namespace podrate::sim {

// Feeds each value of a row as a typed sample: tilt, place, heading, speed, reel, weight. Cells may come in
// different rows: they are summed once each has spoken within half a second. Where a log has both hopper_kg
// and cells, the one that speaks first counts. A value outside its channel's range is reported and left out;
// the rest is used.
class SampleFeed {
  public:
    SampleFeed(const std::string& file, const LogReader& reader, Problems& problems);
    void feed(const LogRow& row, const SampleTaker& take);

  private:
    void give(const Sample& sample, const LogRow& row, const char* what, const SampleTaker& take);
    void feed_place(const LogRow& row, const SampleTaker& take);
    void feed_speed(const LogRow& row, const SampleTaker& take);
    void feed_weight(const LogRow& row, const SampleTaker& take);
    void feed_hits(const LogRow& row, const SampleTaker& take);
    void feed_cells(const LogRow& row, const SampleTaker& take);

    struct Cell {
        Column column = Column::cell1_kg;
        bool known = false;
        TimeUs time_us = 0;
        float kg = 0.0F;
    };
    enum class Source { undecided, hopper, cells };

    std::string file_;
    Problems& problems_;
    bool has_hopper_;
    Cell cells_[4];
    int cell_count_ = 0;
    bool hits_known_ = false;
    double hits_ = 0.0;  // counter's last reading
    Source source_ = Source::undecided;
};

}  // namespace podrate::sim
