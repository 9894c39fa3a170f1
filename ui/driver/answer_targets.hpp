// What may be touched to answer an alarm, at the right of the bottom line. Nothing asks for it: an alarm says
// itself what to check, and stays unless it is answered.
#pragma once

#include <optional>

#include "kit/canvas.hpp"
#include "model/alarm_answers.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window and takes the room from the right of `area`. Each target is at least
// `touch_px` wide and high; with 0 nothing is drawn. Returns what was touched.
std::optional<AlarmAnswer> draw_answer_targets(Canvas& canvas, Box& area, const AnswerWords& words,
                                               float touch_px);

}  // namespace podrate::ui
