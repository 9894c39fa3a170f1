// A line of text as it is typed: what it holds and where the next sign goes. Plain data, no drawing.
#pragma once

#include <cstddef>
#include <string>

namespace podrate::ui {

class TypedLine {
  public:
    // Holds at most `most` signs (not bytes).
    explicit TypedLine(std::size_t most = 80) : most_(most) {}

    // Puts something there to begin with: the first sign typed takes its place, a move keeps it.
    void begin(const std::string& text);
    // Control signs, and what finds no room, are passed over.
    void type(char32_t sign);
    void backspace();
    void remove();
    void left();
    void right();
    void to_start() { at_ = 0, fresh_ = false; }
    void to_end() { at_ = text_.size(), fresh_ = false; }

    [[nodiscard]] const std::string& text() const { return text_; }  // UTF-8
    // Where the next sign goes, in bytes.
    [[nodiscard]] std::size_t at() const { return at_; }
    // Nothing has been typed yet: all of it is still what it began with.
    [[nodiscard]] bool fresh() const { return fresh_; }

  private:
    [[nodiscard]] std::size_t before(std::size_t at) const;
    [[nodiscard]] std::size_t behind(std::size_t at) const;

    std::size_t most_;
    std::string text_;
    std::size_t at_ = 0;
    bool fresh_ = false;
};

}  // namespace podrate::ui
