// A table whose rows show one of their figures as a bar too.
#pragma once

#include <string>
#include <vector>

namespace podrate::sim {

struct BarRow {
    std::vector<std::string> cells;
    double share = 0.0;        // of the bar's full length, 0 to 1
    std::string fill = "bar";  // class of the style sheet: "bar", or the name of a kind of time
};

// Headings and cells are escaped; the bars stand in a last column of their own under `bar_heading`. The
// figure itself must stand among the cells: a bar alone tells nobody its size.
std::string bar_table_html(const std::vector<std::string>& headings, const std::string& bar_heading,
                           const std::vector<BarRow>& rows, const std::vector<std::size_t>& words = {});

}  // namespace podrate::sim
