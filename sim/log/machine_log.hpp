// A machine's log, whatever kind of file it is.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "log/log_row.hpp"
#include "log/problem.hpp"
#include "podrate/bus/bus_decoder.hpp"

namespace podrate::sim {

// Where samples go: an estimator's feed(), as a rule.
using SampleTaker = std::function<FeedResult(const Sample&)>;

class MachineLog {
  public:
    virtual ~MachineLog() = default;
    // False at the end. A row of a CSV file, or one sample of a bus or a receiver.
    virtual bool next(LogRow& row) = 0;
    // Hands on what the newest row holds, as samples.
    virtual void feed(const LogRow& row, const SampleTaker& take) = 0;
    // Whether such a value may come; of a bus, whether one has come.
    [[nodiscard]] virtual bool has(Column column) const = 0;
    [[nodiscard]] virtual std::uint64_t rows_read() const = 0;  // rows or lines, good and bad
    [[nodiscard]] virtual std::uint64_t rows_bad() const = 0;
    [[nodiscard]] virtual std::uint64_t position() const = 0;  // bytes of the file read so far
};

// How a bus is listened to; a CSV file needs none of it.
struct BusChoice {
    std::string interface;  // empty: all
    bus::BusSettings settings;
};

enum class LogKind : std::uint8_t { csv, candump, nmea };

// By the name: .log is candump text, .nmea a receiver's, all else CSV; .zst may follow.
LogKind kind_of(const std::filesystem::path& path);

// By the file's name. Throws RefusedInput where the log can't be used at all. Problems go to `problems`,
// which must outlive the log.
std::unique_ptr<MachineLog> open_log(const std::filesystem::path& path, const BusChoice& bus,
                                     Problems& problems);

}  // namespace podrate::sim
