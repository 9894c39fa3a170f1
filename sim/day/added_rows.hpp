// Rows added to a day folder's small CSV files, in the columns that a file has.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace podrate::sim {

using NamedCells = std::map<std::string, std::string>;

// The whole text of that file with those rows behind the others. Columns that a row does not name stay empty.
// Where there is no file yet, one with `columns`. Throws RefusedInput where the file can't be read, or lacks
// a column of `needed`.
std::string with_rows(const std::filesystem::path& path, const std::vector<std::string>& columns,
                      const std::vector<std::string>& needed, const std::vector<NamedCells>& rows);

}  // namespace podrate::sim
