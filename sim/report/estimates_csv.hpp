// estimates_ID.csv: what the estimator said at each row of the log.
#pragma once

#include <string>

#include "replay/sink.hpp"
#include "report/output_file.hpp"

namespace podrate::sim {

class EstimatesCsv : public ReplaySink {
  public:
    // Writes to `path`; the file stands there once finish() was called.
    explicit EstimatesCsv(const std::filesystem::path& path);
    void on_row(const LogRow& row, const Estimate& estimate) override;
    void finish() override;

  private:
    void flush();
    OutputFile file_;
    std::string pending_;
};

// "weight_stuck|speed_missing", or empty.
std::string fault_names(std::uint8_t faults);

}  // namespace podrate::sim
