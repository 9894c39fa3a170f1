#include "app/picture.hpp"

#include <imgui.h>

#include "app/scene.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

Image picture_of(Session& session, int width_px, int height_px) {
    IMGUI_CHECKVERSION();
    ImGuiContext* context = ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {static_cast<float>(width_px), static_cast<float>(height_px)};
    io.DeltaTime = 1.0F / 60.0F;
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    const float unit = scene_unit(session, io.DisplaySize.x, io.DisplaySize.y);
    const Fonts fonts = load_fonts(*io.Fonts, unit, font_candidates_regular(), font_candidates_bold());
    unsigned char* pixels = nullptr;
    int atlas_width = 0;
    int atlas_height = 0;
    io.Fonts->GetTexDataAsRGBA32(&pixels, &atlas_width, &atlas_height);
    ImGui::NewFrame();
    draw_scene(session, fonts, io.DisplaySize.x, io.DisplaySize.y, false);
    ImGui::Render();
    Image image = rasterise(*ImGui::GetDrawData(), *io.Fonts, width_px, height_px, session.palette().ground);
    ImGui::DestroyContext(context);
    return image;
}

}  // namespace podrate::ui
