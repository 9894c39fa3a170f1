#include "log/line_reader.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

namespace podrate::sim {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::size_t kShownOfLong = 64;  // of a line too long, for its error
constexpr std::size_t kChunk = std::size_t{1} << 18;

}  // namespace

LineReader::LineReader(std::unique_ptr<ByteSource> source) : source_(std::move(source)), buffer_(kChunk) {}

// Brings more bytes behind those not yet given out. False where there are none or no line may grow further.
bool LineReader::refill() {
    if (source_ended_) return false;
    if (begin_ > 0) {
        std::memmove(buffer_.data(), buffer_.data() + begin_, end_ - begin_);
        end_ -= begin_;
        begin_ = 0;
    }
    if (end_ == buffer_.size()) {
        if (buffer_.size() > kLongest) return false;
        buffer_.resize(buffer_.size() * 2);
    }
    const std::size_t got = source_->read(buffer_.data() + end_, buffer_.size() - end_);
    if (got == 0) source_ended_ = true;
    end_ += got;
    return got > 0;
}

void LineReader::skip_rest_of_line() {
    std::vector<char> chunk(kChunk);
    while (true) {
        const std::size_t got = source_->read(chunk.data(), chunk.size());
        if (got == 0) {
            source_ended_ = true;
            return;
        }
        const void* found = std::memchr(chunk.data(), '\n', got);
        if (found == nullptr) continue;
        const std::size_t used = static_cast<std::size_t>(static_cast<const char*>(found) - chunk.data()) + 1;
        // The reader's own buffer still holds the beginning of the long line for the caller: the rest goes
        // behind it.
        const std::size_t rest = got - used;
        if (buffer_.size() < end_ + rest) buffer_.resize(end_ + rest);
        std::memcpy(buffer_.data() + end_, chunk.data() + used, rest);
        begin_ = end_;
        end_ += rest;
        return;
    }
}

bool LineReader::next(Line& line) {
    std::size_t searched = 0;
    while (true) {
        const char* start = buffer_.data() + begin_;
        const std::size_t held = end_ - begin_;
        const void* found = held > searched ? std::memchr(start + searched, '\n', held - searched) : nullptr;
        if (found != nullptr) {
            const auto length = static_cast<std::size_t>(static_cast<const char*>(found) - start);
            line = {{start, length}, ++number_, length > kLongest, true};
            begin_ += length + 1;
            break;
        }
        searched = held;
        if (refill()) continue;
        if (!source_ended_) {
            ++number_;
            const std::size_t kept = std::min<std::size_t>(end_ - begin_, kShownOfLong);
            std::memmove(buffer_.data(), buffer_.data() + begin_, kept);
            begin_ = kept;
            end_ = kept;
            skip_rest_of_line();
            line = {{buffer_.data(), kept}, number_, true, true};
            return true;
        }
        if (end_ == begin_) {
            source_ended_ = false;
            return false;
        }
        line = {{buffer_.data() + begin_, end_ - begin_}, ++number_, end_ - begin_ > kLongest, false};
        begin_ = end_;
        break;
    }
    if (line.number == 1 && line.text.substr(0, kByteOrderMark.size()) == kByteOrderMark) {
        line.text.remove_prefix(kByteOrderMark.size());
    }
    if (!line.text.empty() && line.text.back() == '\r') line.text.remove_suffix(1);
    return true;
}

}  // namespace podrate::sim
