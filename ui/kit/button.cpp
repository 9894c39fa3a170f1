#include "kit/button.hpp"

namespace podrate::ui {

bool button(Canvas& canvas, const Box& box, const char* id, const std::string& words, bool on) {
    ImGui::SetCursorScreenPos({box.x, box.y});
    const bool pressed = ImGui::InvisibleButton(id, {box.w, box.h});
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    canvas.panel(box);
    if (on) canvas.fill({box.x, box.bottom() - 5 * unit, box.w, 5 * unit}, palette.text, 3.0F);
    if (ImGui::IsItemHovered()) {
        canvas.list().AddRect({box.x, box.y}, {box.right(), box.bottom()}, Canvas::packed(palette.text),
                              8.0F * unit, 0, 2.0F * unit);
    }
    canvas.text(box.inset(8 * unit), canvas.fonts().label, palette.text, words, Align::centre);
    return pressed;
}

}  // namespace podrate::ui
