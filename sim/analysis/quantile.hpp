// Quantiles of a sample.
#pragma once

#include <vector>

namespace podrate::sim {

// The value below which `share` (0 to 1) of them lie, between two of them where it falls between: Hyndman &
// Fan, "Sample Quantiles in Statistical Packages", The American Statistician 50(4): 361-365, 1996, type 7.
// Reorders them; 0 where there are none.
double quantile(std::vector<double>& values, double share);

}  // namespace podrate::sim
