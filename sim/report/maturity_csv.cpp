#include "report/maturity_csv.hpp"

#include <cmath>

#include "log/csv_record.hpp"
#include "log/number.hpp"

namespace podrate::sim {
namespace {

constexpr double kRowEachS = 3.0 * 3600.0;
constexpr double kAheadS = 7.0 * 86400.0;

}  // namespace

std::string maturity_forecast_csv(const DayResult& result) {
    std::string text =
        "field,unix_s,forecast,tenderometer,tenderometer_low,tenderometer_high,in_window_pct\n";
    for (const FieldMaturity& m : result.maturity) {
        const double first_s = std::ceil(m.ripening.readings().front().unix_s / kRowEachS) * kRowEachS;
        for (double at_s = first_s; at_s <= m.now_s + kAheadS; at_s += kRowEachS) {
            const Believed reading = m.ripening.at(at_s);
            text += csv_cell(m.field) + ',' + fixed(at_s, 0) + (at_s > m.now_s ? ",1," : ",0,") +
                    fixed(reading.middle, 1) + ',' + fixed(reading.low, 1) + ',' + fixed(reading.high, 1) +
                    ',' + (m.window ? fixed(100.0 * m.in_window(at_s), 1) : std::string()) + '\n';
        }
    }
    return text;
}

}  // namespace podrate::sim
