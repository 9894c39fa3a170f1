// The number type of the estimator.
#pragma once

namespace podrate {

// Single precision on every target, so that a cab controller without a double-precision unit gives the
// same bits as a desktop. PODRATE_DOUBLE builds the same source in double, to measure what that costs.
#ifdef PODRATE_DOUBLE
using Real = double;
#else
using Real = float;
#endif

}  // namespace podrate
