// The measured pea plots of I. L. Nonnecke, Can. J. Plant Sci. 40(2): 396-404, 1960, as the R package agridat
// carries them. They are not in the tree: found in the folder $PODRATE_DATA, or beside it.
#pragma once

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "analysis/variogram.hpp"

namespace podrate::test {

// Along a planted row (`col` in the file) 18 plots lie 5 ft apart; the 15 rows of each block are 10 ft wide
// with 7 ft of bare ground between.
inline constexpr double kFoot_m = 0.3048;
inline constexpr int kPlotRows = 15;
inline constexpr int kPlotsInRow = 18;
inline constexpr double kRowWidth_m = 10.0 * kFoot_m;
inline constexpr double kRowPitch_m = 17.0 * kFoot_m;
inline constexpr double kPlotLength_m = 5.0 * kFoot_m;

inline std::filesystem::path pea_file() {
    const char* folder = std::getenv("PODRATE_DATA");
    const std::filesystem::path data = folder != nullptr ? folder : PODRATE_SOURCE_DIR "/../shared/data";
    return data / "pea_uniformity_1960.tsv";
}

// ln of the shelled weight of each plot; empty where the file is not there.
inline std::vector<sim::VariogramPoint> pea_plots() {
    std::ifstream file(pea_file());
    std::vector<sim::VariogramPoint> points;
    std::string block;
    std::getline(file, block);
    double row, col, vines_lb, peas_lb;
    while (file >> block >> row >> col >> vines_lb >> peas_lb) {
        points.push_back({(col - 1.0) * kRowPitch_m, (row - 1.0) * kPlotLength_m, std::log(peas_lb),
                          block == "B2" ? 1 : 0});
    }
    return points;
}

}  // namespace podrate::test
