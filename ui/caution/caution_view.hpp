// The cautions that stand before the first figures.
#pragma once

#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

void draw_caution_view(Canvas& canvas, const Box& area, const Speech& say);

}  // namespace podrate::ui
