// Byte sources made in memory.
#pragma once

#include <algorithm>
#include <cstring>
#include <memory>
#include <string>
#include <utility>

#include "log/byte_source.hpp"

namespace podrate::test {

// Gives a text in pieces of at most `piece` bytes, as a slow disk or a pipe would.
class StringSource : public sim::ByteSource {
  public:
    explicit StringSource(std::string text, std::size_t piece = std::string::npos)
        : text_(std::move(text)), piece_(piece) {}
    std::size_t read(char* to, std::size_t size) override {
        const std::size_t got = std::min({size, piece_, text_.size() - at_});
        std::memcpy(to, text_.data() + at_, got);
        at_ += got;
        return got;
    }
    [[nodiscard]] std::string trouble() const override { return {}; }
    [[nodiscard]] std::uint64_t position() const override { return at_; }

  private:
    std::string text_;
    std::size_t piece_;
    std::size_t at_ = 0;
};

// A text that may grow while it is read.
class GrowingSource : public sim::ByteSource {
  public:
    std::size_t read(char* to, std::size_t size) override {
        const std::size_t got = std::min(size, text.size() - at_);
        std::memcpy(to, text.data() + at_, got);
        at_ += got;
        return got;
    }
    [[nodiscard]] std::string trouble() const override { return {}; }
    [[nodiscard]] std::uint64_t position() const override { return at_; }
    std::string text;

  private:
    std::size_t at_ = 0;
};

// `head`, then `filler_bytes` times the letter x, then `tail`: a line too long for memory, without the
// memory.
class LongLineSource : public sim::ByteSource {
  public:
    LongLineSource(std::string head, std::uint64_t filler_bytes, std::string tail)
        : head_(std::move(head)), tail_(std::move(tail)), filler_bytes_(filler_bytes) {}
    std::size_t read(char* to, std::size_t size) override {
        largest_asked_ = std::max(largest_asked_, size);
        const std::uint64_t filler_end = head_.size() + filler_bytes_;
        std::size_t got = 0;
        if (at_ < head_.size()) {
            got = std::min<std::uint64_t>(size, head_.size() - at_);
            std::memcpy(to, head_.data() + at_, got);
        } else if (at_ < filler_end) {
            got = static_cast<std::size_t>(std::min<std::uint64_t>(size, filler_end - at_));
            std::memset(to, 'x', got);
        } else {
            const auto from = static_cast<std::size_t>(at_ - filler_end);
            got = std::min(size, tail_.size() - from);
            std::memcpy(to, tail_.data() + from, got);
        }
        at_ += got;
        return got;
    }
    [[nodiscard]] std::string trouble() const override { return {}; }
    [[nodiscard]] std::uint64_t position() const override { return at_; }
    // The most room that the reader ever offered: its buffer was at least that large.
    [[nodiscard]] std::size_t largest_asked() const { return largest_asked_; }

  private:
    std::string head_;
    std::string tail_;
    std::uint64_t filler_bytes_;
    std::uint64_t at_ = 0;
    std::size_t largest_asked_ = 0;
};

// The same line of `line_bytes` letters again and again.
class RepeatedLineSource : public sim::ByteSource {
  public:
    RepeatedLineSource(std::uint64_t line_bytes, std::uint64_t lines)
        : line_bytes_(line_bytes), left_(lines * (line_bytes + 1)) {}
    std::size_t read(char* to, std::size_t size) override {
        largest_asked_ = std::max(largest_asked_, size);
        const auto got = static_cast<std::size_t>(std::min<std::uint64_t>(size, left_));
        std::memset(to, 'x', got);
        for (std::size_t i = 0; i < got; ++i) {
            if ((at_ + i) % (line_bytes_ + 1) == line_bytes_) to[i] = '\n';
        }
        at_ += got;
        left_ -= got;
        return got;
    }
    [[nodiscard]] std::string trouble() const override { return {}; }
    [[nodiscard]] std::uint64_t position() const override { return at_; }
    [[nodiscard]] std::size_t largest_asked() const { return largest_asked_; }

  private:
    std::uint64_t line_bytes_;
    std::uint64_t left_;
    std::uint64_t at_ = 0;
    std::size_t largest_asked_ = 0;
};

}  // namespace podrate::test
