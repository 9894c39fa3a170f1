#include "log/csv_record.hpp"

#include <algorithm>
#include <cstring>

namespace podrate::sim {
namespace {

// A quoted cell may hold that many line ends; a quote open for longer was never meant to open.
constexpr std::size_t kMostJoinedLines = 20;

bool quotes_even(std::string_view text) {
    return std::count(text.begin(), text.end(), '"') % 2 == 0;
}

}  // namespace

std::string shortened(std::string_view text) {
    constexpr std::size_t kMost = 40;
    if (text.size() <= kMost) return std::string(text);
    std::size_t end = kMost;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return std::string(text.substr(0, end)) + "...";
}

std::string csv_cell(std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += c;
        quoted += c;
    }
    return quoted + '"';
}

std::string_view trimmed(std::string_view cell) {
    while (!cell.empty() && (cell.front() == ' ' || cell.front() == '\t')) cell.remove_prefix(1);
    while (!cell.empty() && (cell.back() == ' ' || cell.back() == '\t')) cell.remove_suffix(1);
    return cell;
}

bool CsvReader::next_line(Line& line) {
    if (put_back_.empty()) return lines_.next(line);
    held_ = std::move(put_back_.front().text);
    line = {held_, put_back_.front().number, put_back_.front().too_long, put_back_.front().ended};
    put_back_.pop_front();
    return true;
}

// At the commas, in one pass over the bytes, since most cells hold few or none. False, with nothing split,
// where a quote or a NUL byte asks for more care.
bool CsvReader::split_plain(CsvRecord& record) const {
    const std::string_view text = record.text;
    std::size_t begin = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char c = text[at];
        if (c == ',') {
            record.cells.push_back(text.substr(begin, at - begin));
            begin = at + 1;
        } else if (c == '"' || c == '\0') {
            record.cells.clear();
            return false;
        }
    }
    record.cells.push_back(text.substr(begin));
    return true;
}

void CsvReader::split_quoted(CsvRecord& record) {
    unquoted_.clear();
    const std::string_view text = record.text;
    std::size_t at = 0;
    while (true) {
        if (at < text.size() && text[at] == '"') {
            std::string& cell = unquoted_.emplace_back();
            ++at;
            while (at < text.size()) {
                if (text[at] != '"') {
                    cell += text[at++];
                } else if (at + 1 < text.size() && text[at + 1] == '"') {
                    cell += '"';
                    at += 2;
                } else {
                    break;
                }
            }
            ++at;
            if (at < text.size() && text[at] != ',') {
                record.fault = "text follows a closing quote";
                return;
            }
            record.cells.push_back(cell);
        } else {
            const std::size_t comma = std::min(text.find(',', at), text.size());
            record.cells.push_back(text.substr(at, comma - at));
            at = comma;
        }
        if (at >= text.size()) return;
        ++at;
    }
}

// The line has an odd number of quotes: its last cell goes on in the next lines, or a quote went astray.
void CsvReader::join_open_quote(CsvRecord& record) {
    const std::string first(record.text);
    const bool first_ended = record.ended;
    std::string joined = first;
    std::vector<Kept> ahead;
    Line line;
    bool closed = false;
    while (!closed && ahead.size() < kMostJoinedLines && joined.size() < LineReader::kLongest &&
           next_line(line)) {
        ahead.push_back({std::string(line.text), line.number, line.too_long, line.ended});
        if (line.too_long) break;
        joined += '\n';
        joined += line.text;
        closed = quotes_even(joined);
    }
    if (closed) {
        held_ = std::move(joined);
        record.text = held_;
        record.ended = ahead.back().ended;
        return;
    }
    put_back_.insert(put_back_.begin(), ahead.begin(), ahead.end());
    held_ = first;
    record.text = held_;
    record.ended = first_ended;
    record.fault = "a quote is opened and never closed";
}

bool CsvReader::next(CsvRecord& record) {
    record.cells.clear();
    record.fault = nullptr;
    Line line;
    do {
        if (!next_line(line)) return false;
    } while (line.text.empty() && !line.too_long);
    record.line = line.number;
    record.text = line.text;
    record.ended = line.ended;
    if (line.too_long) {
        record.fault = "it is longer than 1 MiB";
    } else if (split_plain(record)) {
        return true;
    } else if (std::memchr(line.text.data(), '\0', line.text.size()) != nullptr) {
        record.fault = "it holds NUL bytes";
    } else {
        if (!quotes_even(record.text)) join_open_quote(record);
        if (record.fault == nullptr) split_quoted(record);
    }
    return true;
}

}  // namespace podrate::sim
