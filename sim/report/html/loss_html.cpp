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

// Beside what each cab told by the day's end, what all of them together tell.
std::string looked_back_html(const DayResult& result) {
    if (result.neighbour_pairs == 0) return {};
    return "<p class=\"quiet\">Looked back at: what neighbouring bouts cut at other speeds tell, " +
           std::to_string(result.neighbour_pairs) +
           " pairs of all machines together. It knows the whole day, so no cab could have told it "
           "then.</p>\n";
}

}  // namespace

std::string loss_html(const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    std::string statements;
    const bool looked_back = result.neighbour_pairs > 0;
    for (std::size_t i = 0; i < result.machines.size(); ++i) {
        const MachineResult& m = result.machines[i];
        if (!m.usable) continue;
        const LossShares parts = loss_parts(m);
        const bool known = m.lost.collected_kg > Real(0);
        rows.push_back({m.id, known ? ranged_pct(parts.total) : kUnknown,
                        known ? ranged_pct(parts.drum) : kUnknown,
                        known ? ranged_pct(parts.picking) : kUnknown,
                        ranged_figure(ground_kg_per_ha(m), 1.0, 0), ranged_figure(lost_kg(m), 1e3, 2)});
        if (looked_back)
            rows.back().insert(rows.back().begin() + 2, ranged_pct(result.looked_back[i].shares.total));
        statements += "<p><b>" + escaped(m.id) + "</b>: " + escaped(loss_statement(m)) + "</p>\n";
    }
    if (rows.empty()) return {};
    std::vector<std::string> headings = {
        "machine", "lost, %", "in the drum, %", "by the reel, %", "left on the ground, kg/ha", "lost, t"};
    if (looked_back) headings.insert(headings.begin() + 2, "looked back at, %");
    return "<h2>Loss</h2>\n" + table_html(headings, rows) +
           "<p class=\"quiet\">In brackets: the range that holds the truth 9 times in 10.</p>\n" +
           looked_back_html(result) + statements;
}

}  // namespace podrate::sim
