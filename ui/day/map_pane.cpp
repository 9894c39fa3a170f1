#include "day/map_pane.hpp"

namespace podrate::ui {

void draw_map_pane(Canvas& canvas, const Box& area, DayDesk& desk) {
    if (!desk.map()) {
        draw_no_map(canvas, area, desk.speech());
        return;
    }
    const OpenDay& day = desk.day();
    const MapMoment moment = {desk.cursor_us().value_or(day.result.first_us), desk.machine()};
    const auto clicked = draw_map(canvas, area, *day.map, *desk.map(), moment, desk.speech());
    if (clicked) desk.go_to(*clicked);
}

}  // namespace podrate::ui
