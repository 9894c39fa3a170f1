#include "day/added_rows.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>

#include "log/csv_record.hpp"
#include "log/problem.hpp"

namespace podrate::sim {
namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    if (!file) throw RefusedInput({path.string(), 0, "can't be read", "check its permissions"});
    return text.str();
}

std::vector<std::string> columns_of(const std::filesystem::path& path) {
    CsvReader reader(open_bytes(path));
    CsvRecord record;
    std::vector<std::string> columns;
    if (reader.next(record)) {
        for (const std::string_view cell : record.cells) columns.emplace_back(trimmed(cell));
    }
    return columns;
}

std::string joined(const std::vector<std::string>& cells, const std::string& line_end) {
    std::string line;
    for (const std::string& cell : cells) line += (line.empty() ? "" : ",") + cell;
    return line + line_end;
}

}  // namespace

std::string with_rows(const std::filesystem::path& path, const std::vector<std::string>& columns,
                      const std::vector<std::string>& needed, const std::vector<NamedCells>& rows) {
    std::error_code unseen;
    const bool exists = std::filesystem::exists(path, unseen);
    std::string text = exists ? text_of(path) : joined(columns, "\n");
    const std::vector<std::string> its = exists ? columns_of(path) : columns;
    for (const std::string& column : needed) {
        if (std::find(its.begin(), its.end(), column) == its.end())
            throw RefusedInput(
                {path.string(), 1, "has no column '" + column + "'", "add it to its first row"});
    }
    const std::string line_end = text.find("\r\n") == std::string::npos ? "\n" : "\r\n";
    if (!text.empty() && text.back() != '\n') text += line_end;
    for (const NamedCells& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < its.size(); ++i) {
            if (i > 0) line += ',';
            const auto cell = row.find(its[i]);
            if (cell != row.end()) line += csv_cell(cell->second);
        }
        text += line + line_end;
    }
    return text;
}

}  // namespace podrate::sim
