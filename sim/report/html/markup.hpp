// Small helpers for writing HTML and SVG.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace podrate::sim {

// Text made safe inside an element or a quoted attribute.
std::string escaped(std::string_view text);

// A table: headings, then rows of cells, all escaped. `words`: columns of words, which stand to the left.
std::string table_html(const std::vector<std::string>& headings,
                       const std::vector<std::vector<std::string>>& rows,
                       const std::vector<std::size_t>& words = {});

// "2 h 05 min", "12 min", "40 s".
std::string duration_text(double seconds);

}  // namespace podrate::sim
