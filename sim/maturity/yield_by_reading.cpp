#include "maturity/yield_by_reading.hpp"

#include <algorithm>

namespace podrate::sim {

const std::vector<YieldPoint>& usual_yield_table() {
    static const std::vector<YieldPoint> kTable = {{80, 0.76},  {85, 0.82},  {90, 0.88},  {95, 0.94},
                                                   {100, 1.00}, {105, 1.05}, {110, 1.10}, {115, 1.14},
                                                   {120, 1.17}, {130, 1.22}, {140, 1.25}, {150, 1.26}};
    return kTable;
}

YieldByReading::YieldByReading(const std::vector<YieldPoint>& table)
    : table_(table.size() >= 2 ? table : usual_yield_table()) {}

double YieldByReading::at(double tenderometer) const {
    const auto next =
        std::lower_bound(table_.begin(), table_.end(), tenderometer,
                         [](const YieldPoint& p, double points) { return p.tenderometer < points; });
    if (next == table_.begin()) return table_.front().relative_yield;
    if (next == table_.end()) return table_.back().relative_yield;
    const YieldPoint& before = *(next - 1);
    const double share = (tenderometer - before.tenderometer) / (next->tenderometer - before.tenderometer);
    return before.relative_yield + share * (next->relative_yield - before.relative_yield);
}

}  // namespace podrate::sim
