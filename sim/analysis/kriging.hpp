// The value at a place by the values about it: ordinary kriging.
#pragma once

#include <vector>

#include "analysis/variogram.hpp"

namespace podrate::sim {

struct KrigingPoint {
    double east_m;
    double north_m;
    double value;
    double error_variance;  // of that value, value squared: by it the surface may pass the point aside
};

struct KrigedValue {
    double value;
    double variance;  // of the true value there
};

// Best linear unbiased prediction from all those points, one at least, no two in one place unless each has an
// error (G. Matheron, Economic Geology 58: 1246-1266, 1963; in covariances, as R's gstat does it).
KrigedValue krige(const std::vector<KrigingPoint>& points, const VariogramModel& model, double east_m,
                  double north_m);

}  // namespace podrate::sim
