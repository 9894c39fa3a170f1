#include "log/small_table.hpp"

#include "log/csv_record.hpp"
#include "log/number.hpp"

namespace podrate::sim {

SmallTable::SmallTable(const std::filesystem::path& path, Problems& problems) : file_(path.string()) {
    CsvReader csv(open_bytes(path));
    CsvRecord record;
    while (csv.next(record)) {
        if (record.fault != nullptr) {
            problems.add(
                {file_, record.line, std::string("row can't be read: ") + record.fault, "row skipped"});
        } else if (columns_.empty()) {
            for (const std::string_view cell : record.cells) columns_.emplace_back(trimmed(cell));
        } else if (record.cells.size() != columns_.size()) {
            problems.add({file_, record.line,
                          "row has " + std::to_string(record.cells.size()) + " cells instead of " +
                              std::to_string(columns_.size()),
                          "row skipped"});
        } else {
            Row& row = rows_.emplace_back();
            row.line = record.line;
            for (const std::string_view cell : record.cells) row.cells.emplace_back(trimmed(cell));
        }
    }
    const std::string trouble = csv.source().trouble();
    if (!trouble.empty()) problems.add({file_, 0, trouble, "the rows before that point are used"});
}

int SmallTable::index_of(const std::string& column) const {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (columns_[i] == column) return static_cast<int>(i);
    }
    return -1;
}

std::string SmallTable::text(const Row& row, const std::string& column) const {
    const int index = index_of(column);
    return index < 0 ? std::string() : row.cells[static_cast<std::size_t>(index)];
}

bool SmallTable::number(const Row& row, const std::string& column, double& value, Problems& problems) const {
    const std::string cell = text(row, column);
    const ParsedNumber number = parse_number(cell);
    value = number.value;
    if (number.fault == NumberFault::none) return true;
    problems.add({file_, row.line, column + " is '" + shortened(cell) + "', not a number", "row skipped"});
    return false;
}

}  // namespace podrate::sim
