// What is seen while a day is being opened: how far it is, and how to call it off.
#pragma once

#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// `name`: the folder's; `share`: 0 to 1.
void draw_opening_view(Canvas& canvas, const Box& area, const std::string& name, double share,
                       const Speech& say);

// The same as a line below something else.
float opening_line_height(const Canvas& canvas);
void draw_opening_line(Canvas& canvas, Box area, const std::string& name, double share, const Speech& say);

// Why a day could not be opened.
void draw_refusal_view(Canvas& canvas, const Box& area, const std::string& why, const Speech& say);

// Where none is open.
void draw_nothing_open(Canvas& canvas, const Box& area, const Speech& say);

}  // namespace podrate::ui
