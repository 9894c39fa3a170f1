// What the panels with a great figure share.
#pragma once

#include <string>

#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// Height of a line of great figures, which have no descenders.
float great_line(const Canvas& canvas);

// An interval beside a great figure, in the middle of `beside`, and below it how often it holds.
void draw_interval(Canvas& canvas, Box beside, const std::string& interval, const Speech& say);

}  // namespace podrate::ui
