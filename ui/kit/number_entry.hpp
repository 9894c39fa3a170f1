// A number as it is typed, in the language's decimal sign, and what is wrong with it. Plain data, no drawing.
#pragma once

#include <optional>
#include <string>

#include "kit/typed_line.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// A decimal number; comma and point are both taken for the decimal sign, whatever the language, and there is
// no sign between thousands.
std::optional<double> typed_number(const std::string& text);

// In the language's decimal sign: with `decimals` of them, or as many as tell `value` apart from every other
// float.
std::string number_text(const Speech& say, float value, int decimals);

struct NumberRange {
    double low = 0.0;
    double high = 0.0;
    int decimals = 0;  // that its ends are told with
};

class NumberEntry {
  public:
    explicit NumberEntry(const NumberRange& range) : range_(range) {}

    TypedLine& line() { return line_; }
    [[nodiscard]] const TypedLine& line() const { return line_; }
    [[nodiscard]] const NumberRange& range() const { return range_; }
    // Nothing where it is no number, or none of the range.
    [[nodiscard]] std::optional<double> value() const;
    // What is wrong, in words; empty where value() has something.
    [[nodiscard]] std::string refusal(const Speech& say) const;

  private:
    static constexpr std::size_t kMostSigns = 16;
    NumberRange range_;
    TypedLine line_{kMostSigns};
};

}  // namespace podrate::ui
