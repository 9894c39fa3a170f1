// Asked once before the window closes or another day is opened: what would be lost.
#pragma once

#include <string>
#include <vector>

#include "caution/unsaved_before.hpp"
#include "kit/canvas.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// `lines`: what is not saved, one each.
void draw_unsaved_view(Canvas& canvas, const Box& whole, const std::vector<std::string>& lines,
                       UnsavedBefore before, const Speech& say);

}  // namespace podrate::ui
