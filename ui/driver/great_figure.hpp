// What the panels with a great figure share.
#pragma once

#include <string>

#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// Height of a line of great figures, which have no descenders: less where `room` is less, down to half.
float great_line(const Canvas& canvas, float room);

// In such a line. Returns the width taken.
float draw_great(Canvas& canvas, const Box& row, Rgb colour, const std::string& figure);

// An interval beside a great figure, in the middle of `beside`, below it how often it holds, and below that
// `source`, where there is any.
void draw_interval(Canvas& canvas, Box beside, const std::string& interval, const Speech& say,
                   const std::string& source = {});

}  // namespace podrate::ui
