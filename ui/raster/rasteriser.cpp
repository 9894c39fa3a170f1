#include "raster/rasteriser.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace podrate::ui {
namespace {

struct Texture {
    const unsigned char* rgba = nullptr;
    int width = 0;
    int height = 0;
};

struct Clip {
    int x0;
    int y0;
    int x1;
    int y1;
};

struct Colour {
    double r;
    double g;
    double b;
    double a;
};

Colour unpacked(ImU32 colour) {
    return {static_cast<double>((colour >> IM_COL32_R_SHIFT) & 0xFF),
            static_cast<double>((colour >> IM_COL32_G_SHIFT) & 0xFF),
            static_cast<double>((colour >> IM_COL32_B_SHIFT) & 0xFF),
            static_cast<double>((colour >> IM_COL32_A_SHIFT) & 0xFF)};
}

class Painter {
  public:
    Painter(Image& image, Texture texture) : image_(image), texture_(texture) {}

    void triangle(const ImDrawVert& a, const ImDrawVert& b, const ImDrawVert& c, const Clip& clip) const {
        const double area = edge(a.pos, b.pos, static_cast<double>(c.pos.x), static_cast<double>(c.pos.y));
        if (area == 0.0) return;
        if (area < 0.0) {
            triangle(a, c, b, clip);
            return;
        }
        const int x0 = std::max(clip.x0, static_cast<int>(std::floor(std::min({a.pos.x, b.pos.x, c.pos.x}))));
        const int x1 = std::min(clip.x1, static_cast<int>(std::ceil(std::max({a.pos.x, b.pos.x, c.pos.x}))));
        const int y0 = std::max(clip.y0, static_cast<int>(std::floor(std::min({a.pos.y, b.pos.y, c.pos.y}))));
        const int y1 = std::min(clip.y1, static_cast<int>(std::ceil(std::max({a.pos.y, b.pos.y, c.pos.y}))));
        const Colour ca = unpacked(a.col);
        const Colour cb = unpacked(b.col);
        const Colour cc = unpacked(c.col);
        for (int y = y0; y < y1; ++y) {
            for (int x = x0; x < x1; ++x) {
                const double px = x + 0.5;
                const double py = y + 0.5;
                const double wa = edge(b.pos, c.pos, px, py);
                const double wb = edge(c.pos, a.pos, px, py);
                const double wc = edge(a.pos, b.pos, px, py);
                if (!covers(wa, b.pos, c.pos) || !covers(wb, c.pos, a.pos) || !covers(wc, a.pos, b.pos))
                    continue;
                const double sa = wa / area;
                const double sb = wb / area;
                const double sc = wc / area;
                const double u = sa * static_cast<double>(a.uv.x) + sb * static_cast<double>(b.uv.x) +
                                 sc * static_cast<double>(c.uv.x);
                const double v = sa * static_cast<double>(a.uv.y) + sb * static_cast<double>(b.uv.y) +
                                 sc * static_cast<double>(c.uv.y);
                const Colour colour = {sa * ca.r + sb * cb.r + sc * cc.r, sa * ca.g + sb * cb.g + sc * cc.g,
                                       sa * ca.b + sb * cb.b + sc * cc.b,
                                       (sa * ca.a + sb * cb.a + sc * cc.a) * coverage(u, v)};
                blend(x, y, colour);
            }
        }
    }

  private:
    static double edge(const ImVec2& a, const ImVec2& b, double px, double py) {
        const auto ax = static_cast<double>(a.x);
        const auto ay = static_cast<double>(a.y);
        return (static_cast<double>(b.x) - ax) * (py - ay) - (static_cast<double>(b.y) - ay) * (px - ax);
    }

    // Top-left rule: a pixel centre on a shared edge belongs to one triangle only.
    static bool covers(double weight, const ImVec2& from, const ImVec2& to) {
        if (weight != 0.0) return weight > 0.0;
        return (from.y == to.y && to.x > from.x) || to.y < from.y;
    }

    // Opacity of the atlas at a place, between its pixels linearly.
    [[nodiscard]] double coverage(double u, double v) const {
        const double x = u * texture_.width - 0.5;
        const double y = v * texture_.height - 0.5;
        const double fx = std::floor(x);
        const double fy = std::floor(y);
        const auto at = [this](double tx, double ty) {
            const int ix = std::clamp(static_cast<int>(tx), 0, texture_.width - 1);
            const int iy = std::clamp(static_cast<int>(ty), 0, texture_.height - 1);
            return static_cast<double>(texture_.rgba[4 * (iy * texture_.width + ix) + 3]) / 255.0;
        };
        const double sx = x - fx;
        const double sy = y - fy;
        const double upper = at(fx, fy) * (1.0 - sx) + at(fx + 1, fy) * sx;
        const double lower = at(fx, fy + 1) * (1.0 - sx) + at(fx + 1, fy + 1) * sx;
        return upper * (1.0 - sy) + lower * sy;
    }

    void blend(int x, int y, const Colour& colour) const {
        const double a = colour.a / 255.0;
        if (a <= 0.0) return;
        std::uint8_t* pixel =
            &image_.rgba[4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image_.width) +
                              static_cast<std::size_t>(x))];
        const double source[3] = {colour.r, colour.g, colour.b};
        for (int i = 0; i < 3; ++i) {
            const double mixed = source[i] * a + pixel[i] * (1.0 - a);
            pixel[i] = static_cast<std::uint8_t>(std::clamp(mixed + 0.5, 0.0, 255.0));
        }
    }

    Image& image_;
    Texture texture_;
};

void paint_list(const ImDrawList& list, const ImVec2& origin, const Painter& painter, const Image& image) {
    for (const ImDrawCmd& command : list.CmdBuffer) {
        if (command.UserCallback != nullptr) continue;
        const Clip clip = {
            std::max(0, static_cast<int>(command.ClipRect.x - origin.x)),
            std::max(0, static_cast<int>(command.ClipRect.y - origin.y)),
            std::min(image.width, static_cast<int>(std::ceil(command.ClipRect.z - origin.x))),
            std::min(image.height, static_cast<int>(std::ceil(command.ClipRect.w - origin.y)))};
        for (unsigned i = 0; i + 2 < command.ElemCount; i += 3) {
            const auto vertex = [&](unsigned corner) -> const ImDrawVert& {
                const ImDrawIdx index = list.IdxBuffer[static_cast<int>(command.IdxOffset + i + corner)];
                return list.VtxBuffer[static_cast<int>(command.VtxOffset + index)];
            };
            painter.triangle(vertex(0), vertex(1), vertex(2), clip);
        }
    }
}

}  // namespace

Image rasterise(const ImDrawData& data, ImFontAtlas& atlas, int width, int height, Rgb background) {
    Image image;
    image.width = width;
    image.height = height;
    image.rgba.resize(4 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    for (std::size_t i = 0; i < image.rgba.size(); i += 4) {
        image.rgba[i] = background.r;
        image.rgba[i + 1] = background.g;
        image.rgba[i + 2] = background.b;
        image.rgba[i + 3] = 255;
    }
    Texture texture;
    unsigned char* pixels = nullptr;
    atlas.GetTexDataAsRGBA32(&pixels, &texture.width, &texture.height);
    texture.rgba = pixels;
    const Painter painter(image, texture);
    for (int i = 0; i < data.CmdListsCount; ++i)
        paint_list(*data.CmdLists[i], data.DisplayPos, painter, image);
    return image;
}

}  // namespace podrate::ui
