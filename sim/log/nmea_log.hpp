// A receiver's NMEA 0183 text (.nmea) as a log: place, speed and heading, with the receiver's own time.
#pragma once

#include <vector>

#include "log/line_reader.hpp"
#include "log/machine_log.hpp"
#include "log/sample_row.hpp"
#include "podrate/bus/nmea_sentence.hpp"

namespace podrate::sim {

// The time is that of GGA and RMC, the date RMC's: sentences before the first RMC are left out, which is told
// once. Other sentences have the time of the one before. A sentence that is broken or goes back in time is
// counted, reported and skipped.
class NmeaLog final : public MachineLog {
  public:
    NmeaLog(const std::filesystem::path& path, Problems& problems);

    bool next(LogRow& row) override;
    void feed(const LogRow& row, const SampleTaker& take) override;
    [[nodiscard]] bool has(Column column) const override { return rows_.has(column); }
    [[nodiscard]] std::uint64_t rows_read() const override { return rows_read_; }
    [[nodiscard]] std::uint64_t rows_bad() const override { return rows_bad_; }
    [[nodiscard]] std::uint64_t position() const override { return lines_.source().position(); }

  private:
    void bad(const std::string& reason);
    bool set_time(const bus::NmeaFields& fields);
    void take_sentence(std::string_view text);
    void take(const Line& line);
    void finish();

    std::string file_;
    Problems& problems_;
    LineReader lines_;
    bus::NmeaLine finder_;  // so that no broken sentence tells the time
    bus::NmeaDecoder decoder_;
    SampleRows rows_;
    std::vector<Sample> samples_;  // of the line at hand
    std::size_t given_ = 0;
    std::uint64_t line_ = 0;  // at hand
    TimeUs time_us_ = 0;      // of the sentence at hand
    TimeUs day_us_ = 0;       // midnight before it; 0: no date yet
    std::uint64_t rows_read_ = 0;
    std::uint64_t rows_bad_ = 0;
    std::uint64_t undated_ = 0;
    bool finished_ = false;
};

}  // namespace podrate::sim
