// The version that every output names.
#pragma once

namespace podrate {

inline constexpr const char* kVersion = "0.1.0";

}  // namespace podrate
