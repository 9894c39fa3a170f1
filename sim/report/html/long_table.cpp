#include "report/html/long_table.hpp"

#include "report/html/markup.hpp"

namespace podrate::sim {

std::string long_table_html(const std::vector<std::string>& headings,
                            const std::vector<std::vector<std::string>>& rows,
                            const std::vector<std::size_t>& words) {
    if (rows.size() <= kRowsShown) return table_html(headings, rows, words);
    const auto cut = rows.begin() + kRowsShown;
    return table_html(headings, {rows.begin(), cut}, words) + "<details><summary>and " +
           std::to_string(rows.size() - kRowsShown) + " more</summary>\n" +
           table_html(headings, {cut, rows.end()}, words) + "</details>\n";
}

}  // namespace podrate::sim
