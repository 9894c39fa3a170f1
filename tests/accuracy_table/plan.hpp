// The forecast against what came, on synthetic days.
#pragma once

#include <filesystem>
#include <vector>

namespace podrate::accuracy {

// One forecast of what will have been delivered by the day's end, with what was.
struct ForecastScore {
    double day_share = 0.0;  // how much of the day had passed
    double low90_t = 0.0;
    double low50_t = 0.0;
    double median_t = 0.0;
    double high50_t = 0.0;
    double high90_t = 0.0;
    double chance = 0.0;  // of meeting the plan
    double delivered_t = 0.0;
    double true_t = 0.0;
    double planned_t = 0.0;
    double cpu_s = 0.0;
};

// At each of these shares of the day.
inline constexpr double kForecastShares[] = {0.25, 0.5, 0.75};

std::vector<ForecastScore> score_forecasts(const std::filesystem::path& day);

}  // namespace podrate::accuracy
