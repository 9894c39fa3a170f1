// Machines' days of one quantity of the loss, side by side.
#pragma once

#include <string>

#include "tune/loss_of_days.hpp"

namespace podrate::sim {

// A row for each machine's day on a logarithmic scale, machine by machine, with the machine's own level; the
// new prior as a band behind all.
std::string loss_prior_chart_svg(const LossFit& fit, const LossPrior& prior);

// What the marks mean.
std::string loss_prior_legend_html();

// Looks of the marks; colours are the report's own.
inline constexpr const char* kLossPriorStyle = R"css(
.prior-band { fill: var(--work); fill-opacity: .15; } .prior-edge { stroke: var(--work); stroke-width: 1.2; stroke-dasharray: 4 3; } .prior-middle { stroke: var(--work); stroke-width: 1.8; }
.day-reach { stroke: var(--rate); stroke-width: 2; } .day-mark { fill: var(--rate); } .level-line { stroke: var(--text); stroke-width: 1.6; stroke-dasharray: 2 3; }
.far-reach { stroke: var(--stand); stroke-width: 2; } .far-mark { fill: var(--stand); stroke: var(--text); stroke-width: 1.2; }
.summary { font-size: 19px; line-height: 1.4; margin: 12px 0; } p { overflow-wrap: anywhere; }
@media print { .summary { font-size: 14px; } }
)css";

}  // namespace podrate::sim
