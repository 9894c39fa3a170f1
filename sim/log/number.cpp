#include "log/number.hpp"

#include <fast_float/fast_float.h>

#include <charconv>
#include <cmath>

#include "log/csv_record.hpp"

namespace podrate::sim {

ParsedNumber parse_number(std::string_view cell) {
    cell = trimmed(cell);
    if (cell.empty()) return {0.0, NumberFault::empty};
    double value = 0.0;
    const char* end = cell.data() + cell.size();
    const auto result = fast_float::from_chars(cell.data(), end, value);
    if (result.ec != std::errc() || result.ptr != end) return {0.0, NumberFault::not_a_number};
    if (!std::isfinite(value)) return {0.0, NumberFault::not_finite};
    return {value, NumberFault::none};
}

void append_fixed(std::string& to, double value, int decimals) {
    if (!std::isfinite(value)) value = 0.0;
    char digits[400];
    const auto result =
        std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed, decimals);
    std::string_view text(digits, static_cast<std::size_t>(result.ptr - digits));
    if (text.front() == '-' && text.find_first_not_of("-0.") == std::string_view::npos) text.remove_prefix(1);
    to += text;
}

std::string shown(double value) {
    char digits[40];
    const auto result = std::to_chars(digits, digits + sizeof digits, value, std::chars_format::general, 6);
    return {digits, result.ptr};
}

std::string fixed(double value, int decimals) {
    std::string text;
    append_fixed(text, value, decimals);
    return text;
}

}  // namespace podrate::sim
