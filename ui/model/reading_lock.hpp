// When pages that want reading may be open.
#pragma once

#include "podrate/estimate.hpp"

namespace podrate::ui {

// At the wheel: only while the machine is known to stand. `now` may be nullptr: nothing is known.
bool may_read(const Estimate* now);

}  // namespace podrate::ui
