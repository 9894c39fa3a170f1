#include "report/taskdata/data_entries.hpp"

#include <cstdio>

namespace podrate::sim {

std::string device_id(std::size_t machine) {
    return "DVC" + std::to_string(machine + 1);
}

std::string element_id(std::size_t machine, TaskElement element) {
    return "DET" + std::to_string(kTaskElements * machine + static_cast<std::size_t>(element) + 1);
}

std::string partfield_id(std::size_t field) {
    return "PFD" + std::to_string(field + 1);
}

std::string hex_ddi(const DataEntry& entry) {
    char text[8];
    std::snprintf(text, sizeof text, "%04X", static_cast<unsigned>(entry.ddi));
    return text;
}

std::string designator(const std::string& text) {
    constexpr std::size_t kMost = 32;
    std::string kept;
    std::size_t characters = 0;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        const bool follows = (byte & 0xC0U) == 0x80U;  // within a character of UTF-8
        if (!follows && ++characters > kMost) break;
        kept += byte < 0x20U || byte == 0x7FU ? ' ' : c;
    }
    return kept;
}

}  // namespace podrate::sim
