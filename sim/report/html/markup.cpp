#include "report/html/markup.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"

namespace podrate::sim {

namespace {

// Length of the UTF-8 character that begins there, or 0 where none does.
std::size_t character_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(0);
    const std::size_t length = first < 0x80                      ? 1
                               : (first >= 0xC2 && first < 0xE0) ? 2
                               : (first >= 0xE0 && first < 0xF0) ? 3
                               : (first >= 0xF0 && first < 0xF5) ? 4
                                                                 : 0;
    if (length == 0 || length > text.size()) return 0;
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return 0;
    }
    return length;
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        const std::size_t length = character_length(text);
        const char c = text.front();
        if (length == 0 || (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F) {
            out += "\xEF\xBF\xBD";  // the replacement character
        } else if (c == '&') {
            out += "&amp;";
        } else if (c == '<') {
            out += "&lt;";
        } else if (c == '>') {
            out += "&gt;";
        } else if (c == '"') {
            out += "&quot;";
        } else {
            out += text.substr(0, length);
        }
        text.remove_prefix(length == 0 ? 1 : length);
    }
    return out;
}

std::string table_html(const std::vector<std::string>& headings,
                       const std::vector<std::vector<std::string>>& rows,
                       const std::vector<std::size_t>& words) {
    const auto add_row = [&words](std::string& html, const std::vector<std::string>& cells, const char* tag) {
        html += "<tr>";
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const bool of_words = std::find(words.begin(), words.end(), i) != words.end();
            html += std::string("<") + tag + (of_words ? " class=\"words\">" : ">") + escaped(cells[i]) +
                    "</" + tag + ">";
        }
        html += "</tr>";
    };
    std::string html = "<div class=\"scroll\"><table><thead>";
    add_row(html, headings, "th");
    html += "</thead><tbody>\n";
    for (const std::vector<std::string>& row : rows) {
        add_row(html, row, "td");
        html += '\n';
    }
    return html + "</tbody></table></div>\n";
}

std::string svg_line(const char* look, double x0, double y0, double x1, double y1) {
    return std::string("<line class=\"") + look + "\" x1=\"" + fixed(x0, 1) + "\" y1=\"" + fixed(y0, 1) +
           "\" x2=\"" + fixed(x1, 1) + "\" y2=\"" + fixed(y1, 1) + "\"/>";
}

std::string svg_words(double x, double y, const char* anchor, const std::string& words, const char* look) {
    return std::string("<text class=\"") + look + "\" x=\"" + fixed(x, 1) + "\" y=\"" + fixed(y, 1) +
           "\" text-anchor=\"" + anchor + "\">" + escaped(words) + "</text>";
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
