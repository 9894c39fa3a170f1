#include "log/candump_line.hpp"

#include <algorithm>
#include <cstdio>

#include "log/csv_record.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kDigitsOfNow = 10;
constexpr std::uint32_t kErrorFlag = 0x20000000U;  // as linux/can.h has it
constexpr std::uint32_t kLast29Bits = 0x1FFFFFFFU;
constexpr std::uint32_t kLast11Bits = 0x7FFU;
constexpr std::size_t kMostBytes = 8;
constexpr std::size_t kMostFdBytes = 64;
constexpr std::size_t kLongestInterface = 32;

constexpr const char* kNotHex = "its data are no pairs of hexadecimal digits";
constexpr const char* kNoId = "its identifier is not of 3 or 8 hexadecimal digits";
constexpr const char* kCut = "it is cut off";

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// -1 where it is none.
int hex_of(char c) {
    if (is_digit(c)) return c - '0';
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return -1;
}

// Takes the next word off the front; empty at the end.
std::string_view word(std::string_view& rest) {
    rest = trimmed(rest);
    const std::size_t end = std::min(rest.find_first_of(" \t"), rest.size());
    const std::string_view first = rest.substr(0, end);
    rest.remove_prefix(end);
    return first;
}

// Microseconds from "1436509052.249713"; false where it is no such number.
bool parse_stamp(std::string_view text, CandumpLine& line) {
    const std::size_t point = text.find('.');
    if (point == std::string_view::npos || point == 0 || point > kDigitsOfNow) return false;
    const std::string_view decimals = text.substr(point + 1);
    if (decimals.empty() || decimals.size() > 9) return false;
    TimeUs whole_s = 0;
    for (const char c : text.substr(0, point)) {
        if (!is_digit(c)) return false;
        whole_s = 10 * whole_s + (c - '0');
    }
    TimeUs part_us = 0;
    for (std::size_t i = 0; i < decimals.size(); ++i) {
        if (!is_digit(decimals[i])) return false;
        if (i < 6) part_us = 10 * part_us + (decimals[i] - '0');
    }
    for (std::size_t i = decimals.size(); i < 6; ++i) part_us *= 10;
    line.frame.time_us = whole_s * kSecondUs + part_us;
    line.stamp = point == kDigitsOfNow ? CandumpStamp::absolute : CandumpStamp::relative;
    return true;
}

// Takes "(...)" off the front where it stands there. False where it can't be read.
bool take_stamp(std::string_view& rest, CandumpLine& line) {
    if (rest.front() != '(') return true;
    const std::size_t end = rest.find(')');
    if (end == std::string_view::npos) {
        line.fault = kCut;
        return false;
    }
    const std::string_view inner = rest.substr(1, end - 1);
    rest.remove_prefix(end + 1);
    if (parse_stamp(inner, line)) return true;
    if (inner.find(':') != std::string_view::npos && inner.find('-') != std::string_view::npos) {
        line.stamp = CandumpStamp::dated;
        return true;
    }
    line.fault = "its time stamp can't be read";
    return false;
}

bool take_id(std::string_view text, CandumpLine& line) {
    line.fault = kNoId;
    if (text.size() != 3 && text.size() != 8) return false;
    std::uint32_t id = 0;
    for (const char c : text) {
        const int digit = hex_of(c);
        if (digit < 0) return false;
        id = id << 4U | static_cast<std::uint32_t>(digit);
    }
    line.frame.extended = text.size() == 8;
    line.frame.id = id;
    if (line.frame.extended && id > kLast29Bits) {
        line.fault = "its identifier has more than 29 bits";
        line.kind = CandumpKind::error_frame;
        return (id & ~kLast29Bits) == kErrorFlag;
    }
    line.fault = "its identifier has more than 11 bits";
    line.kind = CandumpKind::frame;
    return line.frame.extended || id <= kLast11Bits;
}

// Pairs of hexadecimal digits, dots between them allowed. Returns the bytes, or more than `most` where it
// can't be read.
std::size_t take_bytes(std::string_view text, std::size_t most, std::uint8_t* to) {
    std::size_t bytes = 0;
    while (!text.empty()) {
        if (text.front() == '.' && bytes > 0) text.remove_prefix(1);
        if (text.size() < 2 || bytes == most) return most + 1;
        const int high = hex_of(text[0]);
        const int low = hex_of(text[1]);
        if (high < 0 || low < 0) return most + 1;
        to[bytes++] = static_cast<std::uint8_t>(16 * high + low);
        text.remove_prefix(2);
    }
    return bytes;
}

// Takes the digits of a remote frame's length, at most one, and then nothing more.
bool take_remote(std::string_view text, CandumpLine& line) {
    line.frame.remote = true;
    line.fault = "its remote request can't be read";
    if (text.empty()) return true;
    if (text.size() > 1 || !is_digit(text[0]) || text[0] > '8') return false;
    line.frame.length = static_cast<std::uint8_t>(text[0] - '0');
    return true;
}

bool take_fd(std::string_view payload, CandumpLine& line) {
    std::uint8_t unused[kMostFdBytes];
    line.fault = kNotHex;
    line.kind = CandumpKind::can_fd;
    return !payload.empty() && hex_of(payload[0]) >= 0 &&
           take_bytes(payload.substr(1), kMostFdBytes, unused) <= kMostFdBytes;
}

// What follows a frame of the log layout: the way it went, and flags.
bool only_letters(std::string_view rest) {
    for (std::string_view one = word(rest); !one.empty(); one = word(rest)) {
        if (one.size() != 1 || std::string_view("RTBE").find(one[0]) == std::string_view::npos) return false;
    }
    return true;
}

bool take_log_frame(std::string_view text, std::string_view rest, CandumpLine& line) {
    const std::size_t hash = text.find('#');
    if (!take_id(text.substr(0, hash), line)) return false;
    std::string_view payload = text.substr(hash + 1);
    if (!payload.empty() && payload[0] == '#') {
        if (!take_fd(payload.substr(1), line)) return false;
    } else {
        // "_9" to "_F": a length code above 8, as newer ones write it.
        const std::size_t code = payload.find('_');
        if (code != std::string_view::npos) payload = payload.substr(0, code);
        if (!payload.empty() && payload[0] == 'R') {
            if (!take_remote(payload.substr(1), line)) return false;
        } else {
            const std::size_t bytes = take_bytes(payload, kMostBytes, line.frame.data);
            line.fault = kNotHex;
            if (bytes > kMostBytes) return false;
            line.frame.length = static_cast<std::uint8_t>(bytes);
        }
    }
    line.fault = "something stands behind the frame";
    return only_letters(rest);
}

// "[8]", or "[08]" of CAN FD.
bool take_count(std::string_view text, CandumpLine& line, std::size_t& count) {
    line.fault = "it has no length in brackets";
    if (text.size() < 3 || text.size() > 4 || text.front() != '[' || text.back() != ']') return false;
    for (const char c : text.substr(1, text.size() - 2)) {
        if (!is_digit(c)) return false;
        count = 10 * count + static_cast<std::size_t>(c - '0');
    }
    const bool fd = text.size() == 4;
    if (fd) line.kind = CandumpKind::can_fd;
    line.fault = "its length is out of range";
    return count <= (fd ? kMostFdBytes : kMostBytes);
}

bool take_screen_frame(std::string_view text, std::string_view rest, CandumpLine& line) {
    if (text == "RX" || text == "TX") {  // candump -x, then two flags
        word(rest);
        word(rest);
        text = word(rest);
    }
    if (!take_id(text, line)) return false;
    std::size_t count = 0;
    if (!take_count(word(rest), line, count)) return false;
    line.frame.length = static_cast<std::uint8_t>(std::min(count, kMostBytes));
    std::string_view ahead = rest;
    if (word(ahead) == "remote") {
        line.frame.remote = true;
        return true;
    }
    for (std::size_t i = 0; i < count; ++i) {
        const std::string_view byte = word(rest);
        std::uint8_t value = 0;
        line.fault = byte.empty() ? kCut : kNotHex;
        if (byte.size() != 2 || take_bytes(byte, 1, &value) != 1) return false;
        if (i < kMostBytes) line.frame.data[i] = value;
    }
    rest = trimmed(rest);
    line.fault = "it has more bytes than its length says";
    return rest.empty() || rest.front() == '\'' || line.kind == CandumpKind::error_frame;
}

bool parse(std::string_view text, CandumpLine& line) {
    std::string_view rest = trimmed(text);
    if (!take_stamp(rest, line)) return false;
    line.interface = word(rest);
    const std::string_view next = word(rest);
    line.fault = kCut;
    if (next.empty() || line.interface.size() > kLongestInterface) return false;
    if (next.find('#') != std::string_view::npos) return take_log_frame(next, rest, line);
    return take_screen_frame(next, rest, line);
}

}  // namespace

CandumpLine parse_candump(std::string_view text) {
    CandumpLine line;
    if (trimmed(text).empty()) {
        line.kind = CandumpKind::blank;
    } else if (text.front() == '\t') {
        line.kind = CandumpKind::error_frame;  // candump -e explains it in lines that begin so
    } else if (!parse(text, line)) {
        line.kind = CandumpKind::bad;
    }
    return line;
}

std::string id_text(const bus::CanFrame& frame) {
    char text[12];
    std::snprintf(text, sizeof text, frame.extended ? "%08X" : "%03X", static_cast<unsigned>(frame.id));
    return text;
}

}  // namespace podrate::sim
