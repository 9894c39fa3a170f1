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

// A line and words of a drawing; `look`: their class. `anchor`: start, middle or end. The words are escaped.
std::string svg_line(const char* look, double x0, double y0, double x1, double y1);
std::string svg_words(double x, double y, const char* anchor, const std::string& words,
                      const char* look = "");

// "2 h 05 min", "12 min", "40 s".
std::string duration_text(double seconds);

}  // namespace podrate::sim
