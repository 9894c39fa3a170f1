// What is to be saved of what is seen.
#pragma once

namespace podrate::ui {

enum class Saving { none, picture, table };

}  // namespace podrate::ui
