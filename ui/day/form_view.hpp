// A form over the day's view, in which a tray check or a reading is typed.
#pragma once

#include "kit/canvas.hpp"
#include "typed/entry_form.hpp"

namespace podrate::ui {

void draw_form(Canvas& canvas, const Box& area, const EntryForm& form, const Speech& say);

}  // namespace podrate::ui
