// Records of RFC 4180 text: quotes, doubled quotes, line ends inside quotes.
#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "log/line_reader.hpp"

namespace podrate::sim {

// One record. Cells are views, valid until the next record is read.
struct CsvRecord {
    std::vector<std::string_view> cells;
    std::uint64_t line = 0;       // of its first character
    std::string_view text;        // as it stands in the file
    const char* fault = nullptr;  // why it can't be used, or nullptr
    bool ended = true;            // false: the file ended in it
};

class CsvReader {
  public:
    explicit CsvReader(std::unique_ptr<ByteSource> source) : lines_(std::move(source)) {}

    // False at the end of the file. Empty lines are passed over.
    bool next(CsvRecord& record);

    [[nodiscard]] const ByteSource& source() const { return lines_.source(); }

  private:
    struct Kept {
        std::string text;
        std::uint64_t number;
        bool too_long;
        bool ended;
    };
    bool next_line(Line& line);
    bool split_plain(CsvRecord& record) const;
    void split_quoted(CsvRecord& record);
    void join_open_quote(CsvRecord& record);

    LineReader lines_;
    std::deque<Kept> put_back_;  // lines read ahead for a quote that never closed
    std::string held_;           // the record being given out, where it is not in the reader's buffer
    std::deque<std::string> unquoted_;
};

// At most 40 bytes of it, cut between characters, for messages.
std::string shortened(std::string_view text);

// Quoted where RFC 4180 wants it.
std::string csv_cell(std::string_view text);

// Without blanks and tabs around it.
std::string_view trimmed(std::string_view cell);

}  // namespace podrate::sim
