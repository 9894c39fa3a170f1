#include "day/maturity_files.hpp"

#include <algorithm>

#include "day/calendar.hpp"
#include "log/csv_record.hpp"
#include "log/small_table.hpp"

namespace podrate::sim {
namespace {

constexpr double kLeastReading = 30.0;
constexpr double kMostReading = 300.0;
constexpr double kColdestC = -60.0;
constexpr double kHottestC = 60.0;
constexpr double kLastUnixS = 9999999999.0;
constexpr double kMostRelativeYield = 10.0;

bool is_reading(double points) {
    return points >= kLeastReading && points <= kMostReading;
}

}  // namespace

std::vector<MaturityReading> read_maturity(const std::filesystem::path& path, Problems& problems) {
    std::vector<MaturityReading> readings;
    const SmallTable table(path, problems);
    for (const SmallTable::Row& row : table.rows()) {
        MaturityReading reading;
        reading.field = table.text(row, "field");
        if (!table.number(row, "unix_s", reading.unix_s, problems)) continue;
        if (!table.number(row, "tenderometer", reading.tenderometer, problems)) continue;
        if (!is_reading(reading.tenderometer)) {
            problems.add({path.string(), row.line, "the reading is outside 30 to 300 points",
                          "row skipped; tenderometer is the instrument's reading"});
        } else if (reading.unix_s < 0.0 || reading.unix_s > kLastUnixS) {
            problems.add({path.string(), row.line, "the time is outside unix seconds", "row skipped"});
        } else if (reading.field.empty()) {
            problems.add({path.string(), row.line, "the reading names no field", "row skipped"});
        } else {
            readings.push_back(std::move(reading));
        }
    }
    std::stable_sort(readings.begin(), readings.end(),
                     [](const MaturityReading& a, const MaturityReading& b) { return a.unix_s < b.unix_s; });
    return readings;
}

std::vector<WeatherDay> read_weather(const std::filesystem::path& path, Problems& problems) {
    std::vector<WeatherDay> days;
    const SmallTable table(path, problems);
    for (const SmallTable::Row& row : table.rows()) {
        const std::string date = table.text(row, "date");
        const std::optional<long> number = day_number(date);
        if (!number) {
            problems.add({path.string(), row.line, "date is '" + shortened(date) + "', not a date",
                          "row skipped; write it like 2025-06-27"});
            continue;
        }
        WeatherDay day;
        day.day = *number;
        if (!table.number(row, "min_c", day.min_c, problems)) continue;
        if (!table.number(row, "max_c", day.max_c, problems)) continue;
        if (day.min_c < kColdestC || day.max_c > kHottestC || day.min_c > day.max_c) {
            problems.add({path.string(), row.line,
                          "min_c and max_c are not in order, or outside -60 to 60 °C",
                          "row skipped; temperatures are in °C"});
            continue;
        }
        if (!days.empty() && day.day <= days.back().day) {
            problems.add({path.string(), row.line, "the date does not follow the one before",
                          "row skipped; sort the days, each once"});
            continue;
        }
        days.push_back(day);
    }
    return days;
}

std::vector<YieldPoint> read_yield_table(const std::filesystem::path& path, Problems& problems) {
    std::vector<YieldPoint> points;
    const SmallTable table(path, problems);
    for (const SmallTable::Row& row : table.rows()) {
        YieldPoint point;
        if (!table.number(row, "tenderometer", point.tenderometer, problems)) continue;
        if (!table.number(row, "relative_yield", point.relative_yield, problems)) continue;
        const bool rises = points.empty() || point.tenderometer > points.back().tenderometer;
        if (!is_reading(point.tenderometer) || !rises) {
            problems.add({path.string(), row.line, "tenderometer does not rise, or is outside 30 to 300",
                          "row skipped; sort the table by tenderometer"});
        } else if (!(point.relative_yield > 0.0 && point.relative_yield <= kMostRelativeYield)) {
            problems.add({path.string(), row.line, "relative_yield is outside 0 to 10",
                          "row skipped; 1 is the yield at the reading compared with"});
        } else {
            points.push_back(point);
        }
    }
    if (points.size() < 2) {
        problems.add({path.string(), 0, "has fewer than two rows that can be used",
                      "the built-in table is used; give tenderometer,relative_yield"});
        points.clear();
    }
    return points;
}

}  // namespace podrate::sim
