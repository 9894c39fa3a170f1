// Reads a machine's log, row by row, in bounded memory.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "log/csv_record.hpp"
#include "log/in_order.hpp"
#include "log/log_row.hpp"
#include "log/problem.hpp"

namespace podrate::sim {

// A bad row (wrong cell count, not a number, not finite, time going back) is counted, reported and skipped.
class LogReader final : public InOrder<LogRow> {
  public:
    // Throws RefusedInput where there is no header, no unix_s or no weight column. Problems go to `problems`,
    // which must outlive the reader.
    LogReader(const std::filesystem::path& path, Problems& problems);
    // The same of bytes from elsewhere; `name` is what problems call them. After next() has come to their end
    // it goes on where more have come since, in whole lines.
    LogReader(const std::string& name, std::unique_ptr<ByteSource> bytes, Problems& problems);

    [[nodiscard]] std::uint64_t rows_read() const { return rows_read_; }  // good and bad
    [[nodiscard]] std::uint64_t rows_bad() const { return rows_bad_; }
    [[nodiscard]] bool has(Column column) const { return present_[static_cast<int>(column)]; }
    [[nodiscard]] std::uint64_t position() const { return csv_.source().position(); }

  private:
    void read_header();
    bool parse(const CsvRecord& record, LogRow& row);
    bool next_parsed(LogRow& row) override;
    void bad(std::uint64_t line, const std::string& reason, const std::string& mend) override;
    void finish();

    CsvReader csv_;
    CsvRecord record_;
    std::vector<Column> columns_;
    bool present_[kColumns] = {};
    std::uint64_t rows_read_ = 0;
    std::uint64_t rows_bad_ = 0;
    bool finished_ = false;
};

}  // namespace podrate::sim
