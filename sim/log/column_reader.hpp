// Streams a CSV file by named columns: what our own programs wrote, read back.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "log/csv_record.hpp"

namespace podrate::sim {

// Unlike a machine's log, such a file must be whole: any fault is a RefusedInput with file and line.
class ColumnReader {
  public:
    // Throws where a wanted column is missing.
    ColumnReader(const std::filesystem::path& path, const std::vector<std::string>& wanted);

    bool next();
    // Cell of the wanted column number `index`, in the order asked for.
    [[nodiscard]] std::string_view text(std::size_t index) const { return record_.cells[where_[index]]; }
    [[nodiscard]] double number(std::size_t index) const;

  private:
    std::string file_;
    std::vector<std::string> wanted_;
    CsvReader csv_;
    CsvRecord record_;
    std::vector<std::size_t> where_;
    std::size_t columns_ = 0;
};

}  // namespace podrate::sim
