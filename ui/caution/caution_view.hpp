// The cautions that stand before the first figures.
#pragma once

#include "kit/canvas.hpp"

namespace podrate::ui {

void draw_caution_view(Canvas& canvas, const Box& area);

}  // namespace podrate::ui
