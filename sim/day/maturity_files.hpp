// The day folder's small files on ripeness. Rows that can't be used are reported by line and left out.
#pragma once

#include <filesystem>
#include <vector>

#include "day/maturity_keys.hpp"
#include "log/problem.hpp"

namespace podrate::sim {

// maturity.csv: unix_s,field,tenderometer. In order of time.
std::vector<MaturityReading> read_maturity(const std::filesystem::path& path, Problems& problems);

// weather.csv: date,min_c,max_c. In order of days, each once.
std::vector<WeatherDay> read_weather(const std::filesystem::path& path, Problems& problems);

// maturity_yield.csv: tenderometer,relative_yield, rising. Empty where fewer than two rows can be used.
std::vector<YieldPoint> read_yield_table(const std::filesystem::path& path, Problems& problems);

}  // namespace podrate::sim
