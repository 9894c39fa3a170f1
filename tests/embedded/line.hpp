// Lines of text without stdio, which would bring the heap along.
#pragma once

#include <cstdint>
#include <cstring>

#include "embedded/board.hpp"

namespace podrate::test {

class Line {
  public:
    Line& text(const char* text) {
        while (*text != '\0' && size_ < kMost) text_[size_++] = *text++;
        return *this;
    }
    Line& number(std::uint64_t value) {
        char digits[20];
        int count = 0;
        do {
            digits[count++] = static_cast<char>('0' + value % 10);
            value /= 10;
        } while (value > 0);
        while (count > 0 && size_ < kMost) text_[size_++] = digits[--count];
        return *this;
    }
    Line& hex(std::uint64_t value, int digits) {
        for (int i = digits - 1; i >= 0 && size_ < kMost; --i)
            text_[size_++] = "0123456789abcdef"[value >> (4 * i) & 15];
        return *this;
    }
    Line& bits(float value) {
        std::uint32_t raw = 0;
        std::memcpy(&raw, &value, sizeof raw);
        return hex(raw, 8);
    }
    void print() {
        text_[size_] = '\n';
        text_[size_ + 1] = '\0';
        board::print(text_);
        size_ = 0;
    }

  private:
    static constexpr int kMost = 250;
    char text_[kMost + 2];
    int size_ = 0;
};

inline std::uint32_t number_of(const char* digits) {
    std::uint32_t value = 0;
    for (; *digits >= '0' && *digits <= '9'; ++digits)
        value = value * 10 + static_cast<std::uint32_t>(*digits - '0');
    return value;
}

}  // namespace podrate::test
