// Heat units (degree days) of a day from its least and greatest temperature.
#pragma once

#include "day/maturity_keys.hpp"

namespace podrate::sim {

// In degrees times days; never below zero. Any scale of temperature, if all four are of it.
// mean and cut: the two ways to read one equation of McMaster & Wilhelm, Agric. For. Meteorol. 87 (1997) 291.
// sine: Baskerville & Emin, Ecology 50 (1969) 514, above the top by the horizontal cut-off of Zalom et al.,
// Degree-days, Univ. of California leaflet 21373 (1983).
double heat_units(HeatMethod method, double min, double max, double base, double top);

// Share of a day's heat units that falls into the hour that begins `hour` (0 to 23) hours after midnight, by
// a sine that is least at 3 and greatest at 15 h: common practice, no source. All 24 add up to 1.
double heat_share_of_hour(int hour, double min, double max, double base);

}  // namespace podrate::sim
