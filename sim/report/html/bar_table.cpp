#include "report/html/bar_table.hpp"

#include <algorithm>

#include "log/number.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

constexpr double kBarWidth = 160;

std::string bar_svg(const BarRow& row) {
    return "<td class=\"words\"><svg class=\"bars\" viewBox=\"0 0 160 12\"><rect class=\"" +
           escaped(row.fill) + "\" width=\"" + fixed(kBarWidth * std::clamp(row.share, 0.0, 1.0), 1) +
           "\" height=\"12\"/></svg></td>";
}

}  // namespace

std::string bar_table_html(const std::vector<std::string>& headings, const std::string& bar_heading,
                           const std::vector<BarRow>& rows, const std::vector<std::size_t>& words) {
    const auto cells_html = [&words](const std::vector<std::string>& cells, const std::string& tag) {
        std::string html;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const bool of_words = std::find(words.begin(), words.end(), i) != words.end();
            html += "<" + tag + (of_words ? " class=\"words\">" : ">") + escaped(cells[i]) + "</" + tag + ">";
        }
        return html;
    };
    std::string html = "<div class=\"scroll\"><table><thead><tr>" + cells_html(headings, "th") +
                       "<th class=\"words\">" + escaped(bar_heading) + "</th></tr></thead><tbody>\n";
    for (const BarRow& row : rows) html += "<tr>" + cells_html(row.cells, "td") + bar_svg(row) + "</tr>\n";
    return html + "</tbody></table></div>\n";
}

}  // namespace podrate::sim
