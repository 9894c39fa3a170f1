// How unlike two places are by their distance: the empirical variogram, and a model fitted to it.
#pragma once

#include <vector>

namespace podrate::sim {

struct VariogramPoint {
    double east_m;
    double north_m;
    double value;
    int group;  // only pairs within a group count
};

struct VariogramBin {
    long pairs;
    double distance_m;  // mean of the pairs
    double gamma;       // value squared
};

// Matheron's estimator, gamma = sum of squared differences / (2 pairs) (G. Matheron, Economic Geology 58:
// 1246-1266, 1963). Bin k holds the distances over (k - 1) bin_m and up to k bin_m, the first also 0, the
// last cut at cutoff_m, itself included, as in R's gstat. Bins without pairs are left out. bin_m must be
// positive.
std::vector<VariogramBin> empirical_variogram(const std::vector<VariogramPoint>& points, double cutoff_m,
                                              double bin_m);

enum class VariogramShape { exponential, spherical };

struct VariogramModel {
    double nugget;        // value squared
    double partial_sill;  // value squared, over the nugget
    double range_m;  // exponential: where 1 - 1/e of the partial sill is reached; spherical: where all is
    VariogramShape shape = VariogramShape::exponential;

    // 0 at no distance, from there on nugget + partial sill x (1 - exp(-h / range)) or
    // nugget + partial sill x (1.5 h / range - 0.5 (h / range)^3), level beyond the range.
    double gamma(double h_m) const;
};

// Least squares weighted by pairs / distance^2 (the default of gstat's fit.variogram). Nugget and partial
// sill are 0 at least: one that comes out below is held at 0 and the fit done again from the start, whose
// range must be positive and is best among the distances of the bins. A bin at distance 0 has no weight and
// is left out; of fewer than three bins comes the start.
VariogramModel fit_exponential(const std::vector<VariogramBin>& bins, const VariogramModel& start);
VariogramModel fit_spherical(const std::vector<VariogramBin>& bins, const VariogramModel& start);

}  // namespace podrate::sim
