#include "report/html/markup.hpp"

#include <cmath>

namespace podrate::sim {

std::string escaped(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (const char c : text) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            default:
                out += c;
        }
    }
    return out;
}

std::string table_html(const std::vector<std::string>& headings,
                       const std::vector<std::vector<std::string>>& rows) {
    std::string html = "<div class=\"scroll\"><table><thead><tr>";
    for (const std::string& heading : headings) html += "<th>" + escaped(heading) + "</th>";
    html += "</tr></thead><tbody>\n";
    for (const std::vector<std::string>& row : rows) {
        html += "<tr>";
        for (const std::string& cell : row) html += "<td>" + escaped(cell) + "</td>";
        html += "</tr>\n";
    }
    return html + "</tbody></table></div>\n";
}

std::string duration_text(double seconds) {
    const auto whole = static_cast<long>(std::lround(seconds));
    if (whole < 60) return std::to_string(whole) + " s";
    const long minutes = (whole + 30) / 60;
    if (minutes < 60) return std::to_string(minutes) + " min";
    const std::string rest = std::to_string(minutes % 60);
    return std::to_string(minutes / 60) + " h " + (rest.size() < 2 ? "0" : "") + rest + " min";
}

}  // namespace podrate::sim
