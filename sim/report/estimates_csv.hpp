// estimates_ID.csv, what the estimator said at each row of the log, or each weight of a bus; yields_ID.csv
// and losses_ID.csv, once a second how sure it was of the yield, what the drum and the reel lost, and the
// speed advised.
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
    void add_losses(const LogRow& row, const Estimate& estimate);
    OutputFile file_;
    OutputFile yields_file_;
    OutputFile losses_file_;
    std::string pending_;
    std::string yields_;
    std::string losses_;
    TimeUs next_yield_us_ = 0;
};

}  // namespace podrate::sim
