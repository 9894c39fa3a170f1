#include "log/log_reader.hpp"

#include <cmath>
#include <string_view>
#include <utility>

#include "log/number.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kColumnNames[kColumns] = {
    "unix_s",   "speed_mps", "hopper_kg", "cell1_kg",    "cell2_kg", "cell3_kg", "cell4_kg",  "pitch_deg",
    "roll_deg", "lat_deg",   "lon_deg",   "heading_deg", "reel_on",  "drum_rpm", "loss_hits",
};

// 1970 to 2286: what fits a ten-digit second count.
constexpr double kLatestUnixS = 9999999999.0;

const std::string kNone;
const std::string kSemicolon = "';'";
const std::string kTab = "tabs";
const std::string kReturn = "carriage returns without line feeds";

// What a row of column names holds in the place of commas or line ends, or nothing.
const std::string& wrong_separator(const CsvRecord& record) {
    if (record.text.find('\r') != std::string_view::npos) return kReturn;
    if (record.cells.size() > 1) return kNone;
    if (record.text.find(';') != std::string_view::npos) return kSemicolon;
    return record.text.find('\t') != std::string_view::npos ? kTab : kNone;
}

Column column_of(std::string_view name) {
    for (int i = 0; i < kColumns; ++i) {
        if (name == kColumnNames[i]) return static_cast<Column>(i);
    }
    return Column::unknown;
}

}  // namespace

const char* name_of(Column column) {
    return column == Column::unknown ? "unknown" : kColumnNames[static_cast<int>(column)];
}

LogReader::LogReader(const std::filesystem::path& path, Problems& problems)
    : LogReader(path.string(), open_bytes(path), problems) {}

LogReader::LogReader(const std::string& name, std::unique_ptr<ByteSource> bytes, Problems& problems)
    : InOrder(name, "row", problems), csv_(std::move(bytes)) {
    read_header();
}

void LogReader::read_header() {
    if (!csv_.next(record_)) {
        const std::string trouble = csv_.source().trouble();
        throw RefusedInput({file(), 0, trouble.empty() ? "is empty" : trouble,
                            "a log begins with a row of column names, unix_s among them"});
    }
    if (record_.fault != nullptr) {
        throw RefusedInput({file(), record_.line,
                            std::string("the row of column names can't be read: ") + record_.fault,
                            "a log begins with a row of column names, unix_s among them"});
    }
    for (const std::string_view cell : record_.cells) {
        const std::string_view name = trimmed(cell);
        const Column column = column_of(name);
        if (column == Column::unknown) {
            problems().add({file(), record_.line, "unknown column '" + shortened(name) + "' passed over",
                            "nothing to do unless it was meant to be read", true});
        } else if (present_[static_cast<int>(column)]) {
            throw RefusedInput({file(), record_.line, "column '" + std::string(name) + "' stands twice",
                                "leave one of the two"});
        } else {
            present_[static_cast<int>(column)] = true;
        }
        columns_.push_back(column);
    }
    const std::string& separator = wrong_separator(record_);
    if (!separator.empty()) {
        throw RefusedInput({file(), record_.line, "cells seem to be separated by " + separator,
                            "separate them by commas, rows by line ends"});
    }
    if (!has(Column::unix_s)) {
        throw RefusedInput({file(), record_.line, "has no column unix_s",
                            "add the time of each row, in seconds since 1970-01-01 UTC"});
    }
    if (!has(Column::hopper_kg) && !has(Column::cell1_kg) && !has(Column::cell2_kg) &&
        !has(Column::cell3_kg) && !has(Column::cell4_kg)) {
        throw RefusedInput(
            {file(), record_.line, "has no weight column", "add hopper_kg, or cell1_kg to cell4_kg"});
    }
}

void LogReader::bad(std::uint64_t line, const std::string& reason, const std::string& mend) {
    ++rows_bad_;
    problems().add({file(), line, reason, mend});
}

bool LogReader::parse(const CsvRecord& record, LogRow& row) {
    row.line = record.line;
    if (record.fault != nullptr) {
        bad(record.line, std::string("row can't be read: ") + record.fault, "row skipped");
        return false;
    }
    if (!record.ended && !csv_.source().trouble().empty()) {
        bad(record.line, "row is cut off where the file breaks", "row skipped");
        return false;
    }
    if (record.cells.size() != columns_.size()) {
        const std::string cut = record.ended ? "" : " (the file ends in it)";
        bad(record.line,
            "row has " + std::to_string(record.cells.size()) + " cells instead of " +
                std::to_string(columns_.size()) + cut,
            "row skipped");
        return false;
    }
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (columns_[i] == Column::unknown) continue;
        const auto index = static_cast<std::size_t>(columns_[i]);
        const ParsedNumber number = parse_number(record.cells[i]);
        row.has[index] = number.fault == NumberFault::none;
        row.value[index] = number.value;
        if (row.has[index] || number.fault == NumberFault::empty) continue;
        const std::string text = shortened(record.cells[i]);
        bad(record.line,
            std::string(name_of(columns_[i])) + " is '" + text + "', " +
                (number.fault == NumberFault::not_finite ? "not finite" : "not a number"),
            "row skipped; leave a cell empty where there is no sample");
        return false;
    }
    if (!row.holds(Column::unix_s)) {
        bad(record.line, "row has no time", "row skipped; every row needs unix_s");
        return false;
    }
    const double unix_s = row[Column::unix_s];
    if (unix_s < 0.0 || unix_s > kLatestUnixS) {
        bad(record.line, "unix_s " + fixed(unix_s, 3) + " is outside 0 to 9999999999",
            "row skipped; unix_s counts seconds, not milliseconds");
        return false;
    }
    row.time_us = static_cast<TimeUs>(std::llround(unix_s * 1e6));
    return true;
}

bool LogReader::next_parsed(LogRow& row) {
    while (csv_.next(record_)) {
        ++rows_read_;
        if (parse(record_, row)) return true;
    }
    finish();
    return false;
}

void LogReader::finish() {
    if (finished_) return;
    finished_ = true;
    const std::string trouble = csv_.source().trouble();
    if (trouble.empty()) return;
    problems().add(
        {file(), 0, trouble, "the rows before that point are used; copy the log anew if it matters"});
}

}  // namespace podrate::sim
