// Prints how like one another places of a crop are: the measured pea plots, a model fitted to them, and the
// crop that the synthetic plant grows, cut into plots of the same size and places.
// usage: podrate_crop_likeness [--check]
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "analysis/variogram.hpp"
#include "log/number.hpp"
#include "support/pea_plots.hpp"
#include "synth/land/crop_field.hpp"

namespace {

using namespace podrate::sim;
using namespace podrate::test;

constexpr int kSeeds = 40;
constexpr double kCutoff_m = 32.0;
constexpr double kBin_m = 4.0;
constexpr int kAcross = 8;  // points at which a plot's mean is taken
constexpr int kAlong = 4;
constexpr double kMostOff = 0.15;  // of a bin's gamma, by which plant and plots may differ

double ln_plot_mean(const CropField& crop, double east_m, double north_m) {
    double sum = 0.0;
    for (int i = 0; i < kAcross; ++i) {
        for (int j = 0; j < kAlong; ++j) {
            sum += crop.standing_kgpm2(
                {east_m + kRowWidth_m * (i + 0.5) / kAcross, north_m + kPlotLength_m * (j + 0.5) / kAlong});
        }
    }
    return std::log(sum / (kAcross * kAlong));
}

// As many blocks as seeds, each of another crop.
std::vector<VariogramPoint> grown_plots() {
    std::vector<VariogramPoint> points;
    for (int seed = 1; seed <= kSeeds; ++seed) {
        ScenarioField field;  // as the plant grows it where a scenario says nothing
        field.name = "Plots";
        const CropField crop(field, static_cast<std::uint64_t>(seed));
        for (int row = 0; row < kPlotRows; ++row) {
            for (int plot = 0; plot < kPlotsInRow; ++plot) {
                const double east_m = row * kRowPitch_m;
                const double north_m = plot * kPlotLength_m;
                points.push_back({east_m, north_m, ln_plot_mean(crop, east_m, north_m), seed});
            }
        }
    }
    return points;
}

std::string cell(double value, int decimals) {
    std::string text = fixed(value, decimals);
    return std::string(text.size() < 12 ? 12 - text.size() : 0, ' ') + text;
}

}  // namespace

int main(int argc, char** argv) {
    const bool check = argc > 1 && std::string(argv[1]) == "--check";
    const std::vector<VariogramPoint> plots = pea_plots();
    if (plots.empty()) {
        std::printf("skipped: %s is not there\n", pea_file().c_str());
        return check ? 0 : 1;
    }
    const auto measured = empirical_variogram(plots, kCutoff_m, kBin_m);
    const VariogramModel model = fit_exponential(measured, {0.03, 0.1, 15.0, VariogramShape::exponential});
    const auto grown = empirical_variogram(grown_plots(), kCutoff_m, kBin_m);
    std::printf("ln of the peas of a plot (3.05 m x 1.52 m), half the mean square difference of two plots\n");
    std::printf("fitted: nugget %s, partial sill %s, exponential of %s m\n", fixed(model.nugget, 4).c_str(),
                fixed(model.partial_sill, 4).c_str(), fixed(model.range_m, 1).c_str());
    std::printf("%12s%12s%12s%12s%12s\n", "distance, m", "pairs", "measured", "fitted", "plant");
    bool good = measured.size() == grown.size();
    for (std::size_t i = 0; i < measured.size() && i < grown.size(); ++i) {
        std::printf("%s%s%s%s%s\n", cell(measured[i].distance_m, 2).c_str(),
                    cell(static_cast<double>(measured[i].pairs), 0).c_str(),
                    cell(measured[i].gamma, 4).c_str(), cell(model.gamma(measured[i].distance_m), 4).c_str(),
                    cell(grown[i].gamma, 4).c_str());
        good = good && std::abs(grown[i].gamma / measured[i].gamma - 1.0) <= kMostOff;
    }
    return good || !check ? 0 : 1;
}
