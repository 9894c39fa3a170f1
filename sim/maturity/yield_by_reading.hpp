// What a field yields at one reading against another, by the table that people edit.
#pragma once

#include <vector>

#include "day/maturity_keys.hpp"

namespace podrate::sim {

// The table used where the day has no maturity_yield.csv. Common practice, no source.
const std::vector<YieldPoint>& usual_yield_table();

class YieldByReading {
  public:
    // `table` rising, of two rows or more; else the usual one.
    explicit YieldByReading(const std::vector<YieldPoint>& table);

    // Yield over that at the table's own 1; linear between its rows, held beyond its ends. Above zero.
    [[nodiscard]] double at(double tenderometer) const;
    [[nodiscard]] const std::vector<YieldPoint>& table() const { return table_; }

  private:
    std::vector<YieldPoint> table_;
};

}  // namespace podrate::sim
