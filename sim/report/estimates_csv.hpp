// estimates_ID.csv, what the estimator said at each row of the log, and yields_ID.csv, once a second how sure
// it was of the yield.
#pragma once

#include <string>

#include "replay/sink.hpp"
#include "report/output_file.hpp"

namespace podrate::sim {

class EstimatesCsv : public ReplaySink {
  public:
    // Writes into `folder`; the files stand there once finish() was called.
    EstimatesCsv(const std::filesystem::path& folder, const std::string& machine);
    void on_row(const LogRow& row, const Estimate& estimate) override;
    void finish() override;

  private:
    void flush();
    OutputFile file_;
    OutputFile yields_file_;
    std::string pending_;
    std::string yields_;
    TimeUs next_yield_us_ = 0;
};

// "weight_stuck|speed_missing", or empty.
std::string fault_names(std::uint8_t faults);

}  // namespace podrate::sim
