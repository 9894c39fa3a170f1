// Frames of a candump text file (.log, .log.zst), in order of time and in bounded memory.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "log/candump_line.hpp"
#include "log/in_order.hpp"
#include "log/line_reader.hpp"

namespace podrate::sim {

struct StampedFrame {
    std::uint64_t line = 0;
    TimeUs time_us = 0;  // the frame's too
    bus::CanFrame frame;
};

// A bad line (no frame, no time, time going back) is counted, reported and skipped. CAN FD and error frames
// are passed over and told of once, at the end.
class CandumpReader final : public InOrder<StampedFrame> {
  public:
    // `interface`: whose frames are taken; empty: all, and where there are several that is told once.
    // Throws RefusedInput where no line holds a frame, or where times are not absolute: what was recorded
    // with candump -t d or -t z does not say when it was, and one lost line would shift the rest.
    CandumpReader(const std::filesystem::path& path, std::string interface, Problems& problems);

    [[nodiscard]] std::uint64_t rows_read() const { return rows_read_; }  // lines, good and bad
    [[nodiscard]] std::uint64_t rows_bad() const { return rows_bad_; }
    [[nodiscard]] std::uint64_t position() const { return lines_.source().position(); }

    // Counts a frame that turned out to be of no use, and tells why.
    void bad(std::uint64_t line, const std::string& reason, const std::string& mend) override;

  private:
    bool next_parsed(StampedFrame& row) override;
    bool take(const Line& line, StampedFrame& row);
    bool of_interface(const CandumpLine& parsed, std::uint64_t line);
    void finish();
    void note(const std::string& reason, const std::string& mend);

    LineReader lines_;
    std::string interface_;
    std::vector<std::string> seen_;  // interfaces
    std::uint64_t rows_read_ = 0;
    std::uint64_t rows_bad_ = 0;
    std::uint64_t frames_ = 0;
    std::uint64_t fd_frames_ = 0;
    std::uint64_t error_frames_ = 0;
    StampedFrame first_;
    bool has_first_ = false;  // read ahead to see whether the file is one at all
    bool finished_ = false;
};

}  // namespace podrate::sim
