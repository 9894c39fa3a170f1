// The page of help: keys, what the figures mean, and the cautions again.
#pragma once

#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// What is helped with: a day that is played, a live machine, the day's view, the bench, or the simulator.
enum class HelpKeys { player, live, day, bench, simulator };

void draw_help_view(Canvas& canvas, const Box& whole, const Speech& say, HelpKeys which);

}  // namespace podrate::ui
