// What would lose what is not saved.
#pragma once

#include <cstdint>

namespace podrate::ui {

enum class UnsavedBefore : std::uint8_t {
    quitting,
    other_day,  // opened in this one's place
    writing,    // typed rows, after which the day is opened anew
};

}  // namespace podrate::ui
