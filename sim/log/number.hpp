// Numbers in text, the same in every locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace podrate::sim {

enum class NumberFault { none, empty, not_a_number, not_finite };

struct ParsedNumber {
    double value = 0.0;
    NumberFault fault = NumberFault::none;
};

// A decimal number, blanks around it allowed; nothing else may follow.
ParsedNumber parse_number(std::string_view cell);

// With that many decimals, trailing zeros kept: the same text for the same bits everywhere. "-0.0" becomes
// "0.0".
void append_fixed(std::string& to, double value, int decimals);
std::string fixed(double value, int decimals);

// Short, for messages: "3.3", "1e+300", "nan".
std::string shown(double value);

}  // namespace podrate::sim
