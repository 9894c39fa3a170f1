// Samples that come one by one, as rows of a log.
#pragma once

#include "log/log_row.hpp"
#include "podrate/sample.hpp"

namespace podrate::sim {

// Makes lone rows of samples and remembers which columns there were.
class SampleRows {
  public:
    // A row of one sample.
    void fill(const Sample& sample, std::uint64_t line, LogRow& row);
    // A row of one value that is no sample.
    void fill(TimeUs time_us, Column column, double value, std::uint64_t line, LogRow& row);
    [[nodiscard]] bool has(Column column) const { return seen_[static_cast<int>(column)]; }

  private:
    void set(LogRow& row, Column column, double value);
    bool seen_[kColumns] = {};
    double hits_ = 0.0;  // counted up, as a log has them
};

// "weight", "speed", ...
const char* name_of(Channel channel);

}  // namespace podrate::sim
