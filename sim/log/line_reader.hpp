// Lines of a byte source, in bounded memory.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

#include "log/byte_source.hpp"

namespace podrate::sim {

struct Line {
    std::string_view text;     // without LF or CRLF; valid until the next call
    std::uint64_t number = 0;  // 1 is the first
    bool too_long = false;     // longer than LineReader::kLongest: `text` holds its beginning
    bool ended = true;         // false: the file ended without a line end
};

class LineReader {
  public:
    // No line of a log is longer; a longer one is passed over without being kept.
    static constexpr std::size_t kLongest = std::size_t{1} << 20;

    explicit LineReader(std::unique_ptr<ByteSource> source);

    // False at the end, which is asked for anew with each call. A UTF-8 byte order mark at the start is
    // dropped.
    bool next(Line& line);

    [[nodiscard]] const ByteSource& source() const { return *source_; }

  private:
    bool refill();
    void skip_rest_of_line();

    std::unique_ptr<ByteSource> source_;
    std::vector<char> buffer_;
    std::size_t begin_ = 0;
    std::size_t end_ = 0;
    std::uint64_t number_ = 0;
    bool source_ended_ = false;
};

}  // namespace podrate::sim
