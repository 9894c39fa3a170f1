// A candump log as a machine's log: each sample that its frames hold is a row of its own, with its own time.
#pragma once

#include "log/candump_reader.hpp"
#include "log/machine_log.hpp"
#include "log/sample_row.hpp"

namespace podrate::sim {

class BusLog final : public MachineLog {
  public:
    BusLog(const std::filesystem::path& path, const BusChoice& bus, Problems& problems);

    bool next(LogRow& row) override;
    void feed(const LogRow& row, const SampleTaker& take) override;
    [[nodiscard]] bool has(Column column) const override { return rows_.has(column); }
    [[nodiscard]] std::uint64_t rows_read() const override { return reader_.rows_read(); }
    [[nodiscard]] std::uint64_t rows_bad() const override { return reader_.rows_bad(); }
    [[nodiscard]] std::uint64_t position() const override { return reader_.position(); }

  private:
    void judge(bus::FrameResult result, const StampedFrame& frame);
    bool drum_told(LogRow& row);
    void finish();

    std::string file_;
    Problems& problems_;
    CandumpReader reader_;
    bus::BusDecoder decoder_;
    StampedFrame frame_;
    Sample sample_;  // of the newest row
    int given_ = 0;  // samples of the newest frame given out
    int held_ = 0;   // ... and there are
    bool has_sample_ = false;
    TimeUs drum_us_ = 0;  // of the newest drum speed given out
    SampleRows rows_;
    std::uint64_t other_ = 0;  // frames of a second sender
};

}  // namespace podrate::sim
