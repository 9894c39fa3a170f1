// Small CSV files, wholly in memory: named columns, text cells.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "log/problem.hpp"

namespace podrate::sim {

// Rows with a wrong cell count or other faults are reported and left out.
class SmallTable {
  public:
    struct Row {
        std::uint64_t line = 0;
        std::vector<std::string> cells;
    };

    SmallTable(const std::filesystem::path& path, Problems& problems);

    [[nodiscard]] const std::vector<Row>& rows() const { return rows_; }
    [[nodiscard]] bool has(const std::string& column) const { return index_of(column) >= 0; }
    [[nodiscard]] std::string text(const Row& row, const std::string& column) const;

    // The number in that cell; where it is none, reports it and returns false.
    bool number(const Row& row, const std::string& column, double& value, Problems& problems) const;

  private:
    [[nodiscard]] int index_of(const std::string& column) const;
    std::string file_;
    std::vector<std::string> columns_;
    std::vector<Row> rows_;
};

}  // namespace podrate::sim
