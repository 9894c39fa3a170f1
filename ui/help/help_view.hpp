// The page of help: keys, what the figures mean, and the cautions again.
#pragma once

#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

void draw_help_view(Canvas& canvas, const Box& whole, const Speech& say);

}  // namespace podrate::ui
