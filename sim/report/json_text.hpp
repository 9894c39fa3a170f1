// Strings of JSON for what is written piece by piece.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace podrate::sim {

// In quotes; bytes that are no UTF-8 become U+FFFD.
inline std::string quoted_json(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace podrate::sim
