// Rows of a log as CSV text.
#pragma once

#include <string>
#include <vector>

#include "log/log_row.hpp"

namespace podrate::sim {

// The row of names.
std::string header_text(const std::vector<Column>& columns);

// Lone rows of the same time become one where that row, read again, feeds its values in the same order.
// Values are written so that reading them gives the same again: times to 1 us, places to 1e-7 degrees, the
// rest as short as a single-precision number allows.
class RowWriter {
  public:
    explicit RowWriter(std::vector<Column> columns) : columns_(std::move(columns)) {}
    void add(const LogRow& row, std::string& to);
    // Writes what is still held back.
    void finish(std::string& to);

  private:
    std::vector<Column> columns_;
    LogRow held_;
    bool holds_ = false;
    int rank_ = 0;  // of the newest value held
};

}  // namespace podrate::sim
