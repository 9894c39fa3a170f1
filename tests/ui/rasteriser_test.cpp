#include "raster/rasteriser.hpp"

#include <imgui.h>

#include <catch2/catch.hpp>

using namespace podrate::ui;

namespace {

constexpr Rgb kBlack = {0, 0, 0};

// Draws through Dear ImGui's background list on a black 64 x 64 ground, without anti-aliasing.
template <class Draw>
Image drawn(Draw draw) {
    ImGuiContext* context = ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {64, 64};
    io.DeltaTime = 0.1F;
    unsigned char* pixels = nullptr;
    int width = 0;
    int height = 0;
    io.Fonts->GetTexDataAsRGBA32(&pixels, &width, &height);
    ImGui::NewFrame();
    ImDrawList& list = *ImGui::GetBackgroundDrawList();
    list.Flags = ImDrawListFlags_None;
    draw(list);
    ImGui::Render();
    Image image = rasterise(*ImGui::GetDrawData(), *io.Fonts, 64, 64, kBlack);
    ImGui::DestroyContext(context);
    return image;
}

int red_at(const Image& image, int x, int y) {
    return image.rgba[4 * static_cast<std::size_t>(y * image.width + x)];
}

constexpr ImU32 kRed = IM_COL32(255, 0, 0, 255);
constexpr ImU32 kHalfRed = IM_COL32(255, 0, 0, 128);

}  // namespace

TEST_CASE("A filled rectangle covers its pixels and no other") {
    const Image image = drawn([](ImDrawList& list) { list.AddRectFilled({10, 20}, {30, 25}, kRed); });
    for (int y = 0; y < 64; ++y) {
        for (int x = 0; x < 64; ++x) {
            const bool inside = x >= 10 && x < 30 && y >= 20 && y < 25;
            REQUIRE(red_at(image, x, y) == (inside ? 255 : 0));
        }
    }
}

TEST_CASE("Shared edges are painted once") {
    // Two half-transparent triangles make a square: a pixel painted twice would be brighter.
    const Image image = drawn([](ImDrawList& list) {
        list.AddTriangleFilled({8, 8}, {56, 8}, {8, 56}, kHalfRed);
        list.AddTriangleFilled({56, 8}, {56, 56}, {8, 56}, kHalfRed);
    });
    for (int y = 8; y < 56; ++y) {
        for (int x = 8; x < 56; ++x) REQUIRE(red_at(image, x, y) == 128);
    }
}

TEST_CASE("Nothing is painted outside the clip rectangle") {
    const Image image = drawn([](ImDrawList& list) {
        list.PushClipRect({16, 16}, {48, 40});
        list.AddRectFilled({-100, -100}, {200, 200}, kRed);
        list.PopClipRect();
    });
    CHECK(red_at(image, 15, 20) == 0);
    CHECK(red_at(image, 16, 16) == 255);
    CHECK(red_at(image, 47, 39) == 255);
    CHECK(red_at(image, 48, 39) == 0);
    CHECK(red_at(image, 20, 40) == 0);
}

TEST_CASE("Text leaves marks, and the same marks each time") {
    const auto words = [](ImDrawList& list) { list.AddText({4, 4}, kRed, "5.4"); };
    const Image first = drawn(words);
    const Image second = drawn(words);
    int lit = 0;
    for (int y = 0; y < 64; ++y) {
        for (int x = 0; x < 64; ++x) lit += red_at(first, x, y) > 128 ? 1 : 0;
    }
    CHECK(lit > 15);
    CHECK(first.rgba == second.rgba);
}

TEST_CASE("Quads beyond the reach of 16-bit indices come out like the first") {
    const Image image = drawn([](ImDrawList& list) {
        list.Flags = ImDrawListFlags_AllowVtxOffset;
        constexpr int kMany = 40000;  // 160,000 corners
        for (int i = 0; i < kMany; ++i) {
            const bool last = i + 1 == kMany;
            const float x = last ? 40.0F : 4.0F;
            list.AddRectFilled({x, 10.0F}, {x + 8.0F, 18.0F}, kRed);
        }
    });
    for (int y = 0; y < 64; ++y) {
        for (int x = 0; x < 64; ++x) {
            const bool inside = y >= 10 && y < 18 && ((x >= 4 && x < 12) || (x >= 40 && x < 48));
            REQUIRE(red_at(image, x, y) == (inside ? 255 : 0));
        }
    }
}
