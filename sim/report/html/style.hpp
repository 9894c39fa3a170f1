// Looks of the report: light and dark, screen and paper. The only place in the report with colours
// beside the maps' own (cividis.hpp).
#pragma once

namespace podrate::sim {

inline constexpr const char* kStyle = R"css(
:root { --ground: #f7f7f5; --panel: #ffffff; --text: #111111; --quiet: #4a4a48; --rule: #c9c9c4;
  --rate: #005f96; --work: #00694d; --move: #7fb2d0; --stand: #b35c00; --tip: #111111; --plan: #94407a; --bad: #942050; }
@media (prefers-color-scheme: dark) { :root { --ground: #0b0e11; --panel: #14181c; --text: #e6e6e6; --quiet: #a8aeb4;
  --rule: #383f46; --rate: #56b4e9; --work: #2fb88f; --move: #2f5f7d; --stand: #e68a2e; --tip: #e6e6e6; --plan: #cc8fc0; --bad: #f0e442; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--text); font: 15px/1.45 "B612", "DejaVu Sans", system-ui, sans-serif;
  font-variant-numeric: tabular-nums; }
main { max-width: 1080px; margin: 0 auto; padding: 20px 16px 48px; }
h1 { font-size: 26px; margin: 0 0 2px; } h2 { font-size: 18px; margin: 30px 0 8px; }
p { margin: 6px 0; } .quiet { color: var(--quiet); }
.contents { display: flex; flex-wrap: wrap; gap: 4px 16px; margin: 10px 0; } .contents a { color: var(--rate); padding: 3px 0; }
.tiles { display: grid; grid-template-columns: repeat(auto-fit, minmax(165px, 1fr)); gap: 10px; margin: 16px 0 4px; }
.tile { background: var(--panel); border: 1px solid var(--rule); border-radius: 8px; padding: 10px 14px; }
.tile b { display: block; font-size: 28px; line-height: 1.2; } .tile span { color: var(--quiet); }
.scroll { overflow-x: auto; margin: 8px 0; }
table { border-collapse: collapse; width: 100%; background: var(--panel); }
th, td { padding: 5px 9px; text-align: right; border-bottom: 1px solid var(--rule); white-space: nowrap; }
th { color: var(--quiet); font-weight: normal; vertical-align: bottom; white-space: normal; line-height: 1.25; }
th:first-child, td:first-child { text-align: left; } th.words, td.words { text-align: left; white-space: normal; }
details { margin: 6px 0; } summary { color: var(--quiet); cursor: pointer; }
svg { width: 100%; height: auto; background: var(--panel); border: 1px solid var(--rule); border-radius: 8px; display: block; margin: 8px 0; }
@media (max-width: 700px) { th { min-width: 92px; } th.words { min-width: 130px; }
  th:first-child, td:first-child { position: sticky; left: 0; background: var(--panel); border-right: 1px solid var(--rule); white-space: normal; min-width: 76px; max-width: 42vw; } th.words:first-child { min-width: 140px; }
  .scroll { background: linear-gradient(to left, var(--panel), transparent) right / 30px 100% no-repeat local,
    linear-gradient(to left, var(--rule), transparent) right / 12px 100% no-repeat scroll, var(--panel); } .scroll table { background: none; }
  .chart { overflow-x: auto; } .chart svg { min-width: 760px; } }
.multiples { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(330px, 100%), 1fr)); gap: 0 12px; } .multiples svg { max-width: 660px; }
@media (max-width: 700px), print { .multiples svg text { font-size: 16px; } }
svg.bars { width: 160px; height: 12px; margin: 0; border: none; border-radius: 0; background: none; }
svg text { fill: var(--quiet); font-size: 13px; } svg .strong { fill: var(--text); font-size: 15px; }
svg .over { paint-order: stroke; stroke: var(--panel); stroke-width: 3px; stroke-linejoin: round; }
.grid { stroke: var(--rule); stroke-width: 1; } .rate-area { fill: var(--rate); fill-opacity: .25; }
.rate-line { fill: none; stroke: var(--rate); stroke-width: 1.6; } .tip-mark { stroke: var(--text); stroke-width: 1.4; }
.plan-line { fill: none; stroke: var(--plan); stroke-width: 2; stroke-dasharray: 7 5; } .sum-line { fill: none; stroke: var(--work); stroke-width: 2.4; }
.hopper-band { fill: var(--work); fill-opacity: .3; } .fan-90 { fill: var(--rate); fill-opacity: .18; } .fan-50 { fill: var(--rate); fill-opacity: .3; }
.fan-median { fill: none; stroke: var(--rate); stroke-width: 2; stroke-dasharray: 2 4; }
.harvesting { fill: var(--work); } .turning, .travelling { fill: var(--move); } .tipping { fill: var(--tip); }
.waiting { fill: url(#wait); } .stopped { fill: url(#stop); } .paused_in_crop { fill: url(#pause); }
.bar { fill: var(--quiet); } .no_log { fill: none; stroke: var(--quiet); stroke-width: 2; stroke-dasharray: 3 3; }
.hatch { stroke: var(--stand); stroke-width: 3; } .dots { fill: var(--stand); } .solid-stand { fill: var(--stand); }
.window-band { fill: var(--work); fill-opacity: .13; } .window-edge { stroke: var(--work); stroke-width: 1.4; stroke-dasharray: 2 3; }
.belief-band { fill: var(--rate); fill-opacity: .2; } .belief-ahead { fill: none; stroke: var(--rate); stroke-width: 1.8; stroke-dasharray: 6 4; }
.reading { fill: var(--text); } .now-line { stroke: var(--text); stroke-width: 1; } .crossing { stroke: var(--text); stroke-width: 3; stroke-linecap: round; } .crossing-tick { stroke: var(--text); stroke-width: 2; }
.pace { margin-bottom: 12px; } .by-hand { min-height: 46px; margin: 0; padding-top: 4px; border-bottom: 1px solid var(--rule); }
.bad { color: var(--bad); }
.maps { display: grid; grid-template-columns: repeat(auto-fit, minmax(300px, 1fr)); gap: 4px 12px; } figure { margin: 0; }
h3 { font-size: 15px; margin: 14px 0 4px; } .cells { image-rendering: pixelated; } .unsure-line { stroke: var(--panel); stroke-width: 1.2; fill: none; }
.maps svg text { font-size: 17px; } .map-line { fill: none; stroke: var(--text); stroke-width: 2; } .map-arrow { fill: var(--text); }
.map-mark path, .map-mark circle { fill: var(--panel); stroke: var(--text); stroke-width: 1.6; }
.legend { display: flex; flex-wrap: wrap; gap: 4px 18px; } .legend svg { width: 22px; height: 12px; display: inline-block; margin: 0 6px 0 0; border-radius: 2px; vertical-align: -1px; }
@media print { .contents { display: none; } body { font-size: 11px; background: none; } main { max-width: none; padding: 0; } h2, h3 { break-after: avoid; }
  svg, tr, .tile, .pace, figure { break-inside: avoid; } tbody tr:nth-child(-n+4), tbody tr:nth-last-child(-n+3) { break-before: avoid; } .scroll { overflow: visible; } th, td { padding: 3px 5px; } @page { size: A4; margin: 14mm; } }
)css";

}  // namespace podrate::sim
