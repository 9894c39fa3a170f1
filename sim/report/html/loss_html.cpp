#include "report/html/loss_html.hpp"

#include "log/number.hpp"
#include "report/html/markup.hpp"
#include "report/loss_figures.hpp"
#include "report/loss_statement.hpp"

namespace podrate::sim {
namespace {

const std::string kUnknown = "unknown";

std::string ranged(double value, double low, double high, int decimals) {
    return fixed(value, decimals) + " (" + fixed(low, decimals) + " to " + fixed(high, decimals) + ")";
}

std::string ranged_pct(const Share& share) {
    return ranged(100.0 * static_cast<double>(share.share), 100.0 * static_cast<double>(share.low),
                  100.0 * static_cast<double>(share.high), 1);
}

std::string ranged_figure(const std::optional<RangedFigure>& figure, double unit, int decimals) {
    if (!figure) return kUnknown;
    return ranged(figure->value / unit, figure->low / unit, figure->high / unit, decimals);
}

}  // namespace

std::string loss_html(const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    std::string statements;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        const LossShares parts = loss_parts(m);
        const bool known = m.lost.collected_kg > Real(0);
        rows.push_back({m.id, known ? ranged_pct(parts.total) : kUnknown,
                        known ? ranged_pct(parts.drum) : kUnknown,
                        known ? ranged_pct(parts.picking) : kUnknown,
                        ranged_figure(ground_kg_per_ha(m), 1.0, 0), ranged_figure(lost_kg(m), 1e3, 2)});
        statements += "<p><b>" + escaped(m.id) + "</b>: " + escaped(loss_statement(m)) + "</p>\n";
    }
    if (rows.empty()) return {};
    return "<h2>Loss</h2>\n" +
           table_html({"machine", "lost, %", "in the drum, %", "by the reel, %", "left on the ground, kg/ha",
                       "lost, t"},
                      rows) +
           "<p class=\"quiet\">In brackets: the range that holds the truth 9 times in 10.</p>\n" + statements;
}

}  // namespace podrate::sim
