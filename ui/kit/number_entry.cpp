#include "kit/number_entry.hpp"

#include <algorithm>
#include <charconv>

#include "log/number.hpp"

namespace podrate::ui {

std::optional<double> typed_number(const std::string& text) {
    std::string plain = text;
    std::replace(plain.begin(), plain.end(), ',', '.');
    if (plain.size() > 1 && plain[0] == '+' && plain[1] != '-') plain.erase(0, 1);
    const sim::ParsedNumber parsed = sim::parse_number(plain);
    if (parsed.fault != sim::NumberFault::none) return std::nullopt;
    return parsed.value;
}

std::string number_text(const Speech& say, float value, int decimals) {
    const std::string rounded = sim::fixed(static_cast<double>(value), decimals);
    const auto back = sim::parse_number(rounded);
    if (static_cast<float>(back.value) == value) return say.number(static_cast<double>(value), decimals);
    char digits[64];
    const auto end = std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed).ptr;
    std::string exact(digits, end);
    if (say.language == Language::german) std::replace(exact.begin(), exact.end(), '.', ',');
    return exact;
}

std::optional<double> NumberEntry::value() const {
    const std::optional<double> typed = typed_number(line_.text());
    const bool inside = typed && *typed >= range_.low && *typed <= range_.high;
    return inside ? typed : std::nullopt;
}

std::string NumberEntry::refusal(const Speech& say) const {
    if (value()) return "";
    const std::string range =
        say.range(say.number(range_.low, range_.decimals), say.number(range_.high, range_.decimals));
    if (line_.text().empty()) return say(Text::entry_empty, {range});
    return say(typed_number(line_.text()) ? Text::entry_outside : Text::entry_no_number,
               {line_.text(), range});
}

}  // namespace podrate::ui
