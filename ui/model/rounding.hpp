// How closely figures are told.
#pragma once

namespace podrate::ui {

inline constexpr double kRoundKgpha = 10.0;  // of peas on the ground: nobody sees less

}  // namespace podrate::ui
