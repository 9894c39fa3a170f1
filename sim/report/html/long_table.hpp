// A table that stays short: its first rows, the rest behind a fold.
#pragma once

#include <string>
#include <vector>

namespace podrate::sim {

inline constexpr std::size_t kRowsShown = 12;

// As table_html(), but rows beyond kRowsShown are folded away with their number said. On paper they stay
// away.
std::string long_table_html(const std::vector<std::string>& headings,
                            const std::vector<std::vector<std::string>>& rows,
                            const std::vector<std::size_t>& words);

}  // namespace podrate::sim
