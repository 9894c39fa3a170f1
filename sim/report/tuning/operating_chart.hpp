// Operating curves of one alarm: what each setting gives and costs.
#pragma once

#include <string>

#include "tune/tuning_choice.hpp"

namespace podrate::sim {

// Share told against false alarms an hour: each setting a mark, the best of them joined.
std::string detection_chart_svg(const AlarmConclusion& alarm, const TuningChoice& choice);

// Median delay against false alarms an hour.
std::string delay_chart_svg(const AlarmConclusion& alarm, const TuningChoice& choice);

// What the marks mean.
std::string operating_legend_html(const TuningChoice& choice);

// Looks of the marks; colours are the report's own.
inline constexpr const char* kOperatingStyle = R"css(
.any-setting { fill: none; stroke: var(--quiet); stroke-width: 1.1; } .unbeaten { fill: var(--rate); stroke: var(--panel); stroke-width: .8; }
.as-it-was { fill: var(--panel); stroke: var(--text); stroke-width: 2.2; } .to-set { fill: var(--stand); stroke: var(--text); stroke-width: 1.4; }
.asked { fill: var(--work); fill-opacity: .12; stroke: var(--work); stroke-width: 1.2; stroke-dasharray: 4 3; }
.best-line { fill: none; stroke: var(--rate); stroke-width: 1.4; stroke-opacity: .7; } .whisker { stroke: var(--text); stroke-width: 1.2; }
.summary { font-size: 19px; line-height: 1.4; margin: 12px 0; } p { overflow-wrap: anywhere; }
.ranged td { white-space: normal; } .ranged th.words:first-child { min-width: 100px; }
@media print { .summary { font-size: 14px; } }
)css";

}  // namespace podrate::sim
