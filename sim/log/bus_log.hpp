// A candump log as a machine's log: each sample that its frames hold is a row of its own, with its own time.
#pragma once

#include "log/candump_reader.hpp"
#include "log/machine_log.hpp"

namespace podrate::sim {

class BusLog final : public MachineLog {
  public:
    BusLog(const std::filesystem::path& path, const BusChoice& bus, Problems& problems);

    bool next(LogRow& row) override;
    void feed(const LogRow& row, const SampleTaker& take) override;
    [[nodiscard]] bool has(Column column) const override { return seen_[static_cast<int>(column)]; }
    [[nodiscard]] std::uint64_t rows_read() const override { return reader_.rows_read(); }
    [[nodiscard]] std::uint64_t rows_bad() const override { return reader_.rows_bad(); }
    [[nodiscard]] std::uint64_t position() const override { return reader_.position(); }

  private:
    void judge(bus::FrameResult result, const StampedFrame& frame);
    void set(LogRow& row, Column column, double value);
    void begin(LogRow& row, TimeUs time_us) const;
    void fill(LogRow& row);
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
    double hits_ = 0.0;
    bool seen_[kColumns] = {};
    std::uint64_t other_ = 0;  // frames of a second sender
};

}  // namespace podrate::sim
