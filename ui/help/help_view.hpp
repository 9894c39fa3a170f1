// The page of help: keys, what the figures mean, and the cautions again.
#pragma once

#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// Whose keys: of a day that is played, or of the simulator.
enum class HelpKeys { player, simulator };

void draw_help_view(Canvas& canvas, const Box& whole, const Speech& say, HelpKeys which);

}  // namespace podrate::ui
