// Quantiles of the standard normal distribution, the same bits everywhere.
#pragma once

namespace podrate::sim {

// z with P(Z < z) = p; p within 1e-300 and 1 - 1e-16, else the bound's. Relative error about 1e-16: Wichura,
// "Algorithm AS 241", Applied Statistics 37(3): 477-484, 1988 (PPND16).
double normal_quantile(double p);

// P(Z < z) by the continued fraction and series of Abramowitz & Stegun 26.2.10 and 26.2.14; error < 1e-12.
double normal_below(double z);

}  // namespace podrate::sim
