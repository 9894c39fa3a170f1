// When pages that want reading may be open.
#pragma once

#include "podrate/estimate.hpp"

namespace podrate::ui {

// At the wheel only while the machine is known to stand; over a recorded day always. `now` may be nullptr:
// nothing is known.
bool may_read(bool live, const Estimate* now);

}  // namespace podrate::ui
