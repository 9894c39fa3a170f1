#include "kit/typed_line.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

bool goes_on(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

std::string utf8(char32_t sign) {
    const auto byte = [](char32_t bits) { return static_cast<char>(static_cast<unsigned char>(bits)); };
    const auto rest = [&](unsigned shift) { return byte(0x80U | ((sign >> shift) & 0x3FU)); };
    if (sign < 0x80U) return {byte(sign)};
    if (sign < 0x800U) return {byte(0xC0U | (sign >> 6U)), rest(0)};
    if (sign < 0x10000U) return {byte(0xE0U | (sign >> 12U)), rest(6), rest(0)};
    return {byte(0xF0U | (sign >> 18U)), rest(12), rest(6), rest(0)};
}

bool can_be_seen(char32_t sign) {
    const bool control = sign < 0x20U || (sign >= 0x7FU && sign < 0xA0U);
    const bool half_a_sign = sign >= 0xD800U && sign < 0xE000U;
    return !control && !half_a_sign && sign <= 0x10FFFFU;
}

std::size_t signs_in(const std::string& text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char byte) { return !goes_on(byte); }));
}

}  // namespace

void TypedLine::begin(const std::string& text) {
    text_ = text;
    at_ = text_.size();
    fresh_ = true;
}

void TypedLine::type(char32_t sign) {
    if (!can_be_seen(sign)) return;
    if (fresh_) begin("");
    fresh_ = false;
    if (signs_in(text_) >= most_) return;
    const std::string bytes = utf8(sign);
    text_.insert(at_, bytes);
    at_ += bytes.size();
}

void TypedLine::backspace() {
    const std::size_t from = before(at_);
    text_.erase(from, at_ - from);
    at_ = from;
    fresh_ = false;
}

void TypedLine::remove() {
    text_.erase(at_, behind(at_) - at_);
    fresh_ = false;
}

void TypedLine::left() {
    at_ = before(at_);
    fresh_ = false;
}

void TypedLine::right() {
    at_ = behind(at_);
    fresh_ = false;
}

std::size_t TypedLine::before(std::size_t at) const {
    if (at == 0) return 0;
    for (--at; at > 0 && goes_on(text_[at]);) --at;
    return at;
}

std::size_t TypedLine::behind(std::size_t at) const {
    if (at == text_.size()) return at;
    for (++at; at < text_.size() && goes_on(text_[at]);) ++at;
    return at;
}

}  // namespace podrate::ui
