// How large figures are to the eye. The angle of what is h high at a distance d is 2 atan(h / 2d); a minute
// of arc is a sixtieth of a degree. Digits have no x-height: their own height is taken, as drawn.
#include <imgui.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "ui/live_machine.hpp"
#include "ui/scene_desk.hpp"

using namespace podrate::ui;

namespace {

constexpr double kPi = 3.14159265358979323846;

double arcmin(double height_px, double px_per_mm, double distance_mm) {
    return 2.0 * std::atan(height_px / px_per_mm / (2.0 * distance_mm)) * 180.0 / kPi * 60.0;
}

// Heights of all signs drawn within a box, tallest first. A sign is four corners that differ in the atlas.
std::vector<double> sign_heights(const Box& within) {
    std::vector<double> heights;
    const ImDrawData& data = *ImGui::GetDrawData();
    for (int l = 0; l < data.CmdListsCount; ++l) {
        const ImVector<ImDrawVert>& corners = data.CmdLists[l]->VtxBuffer;
        for (int i = 0; i + 3 < corners.Size; ++i) {
            const ImDrawVert& a = corners[i];
            const ImDrawVert& b = corners[i + 2];
            const bool sign = a.uv.x < b.uv.x && a.uv.y < b.uv.y && corners[i + 1].uv.y == a.uv.y &&
                              corners[i + 3].uv.x == a.uv.x && corners[i + 3].uv.y == b.uv.y;
            const bool inside = a.pos.x >= within.x && b.pos.x <= within.right() && a.pos.y >= within.y &&
                                b.pos.y <= within.bottom();
            if (sign && inside) heights.push_back(static_cast<double>(b.pos.y - a.pos.y));
        }
    }
    std::sort(heights.rbegin(), heights.rend());
    return heights;
}

}  // namespace

// 20 minutes of arc is what ISO 9241-303 prefers for signs that are read easily (from memory). Sums at 2 m,
// with the diagonals of driver/touch_size.hpp: digits of 62 to 64 px on 800 x 480: 62 / 5.25 = 11.8 mm, 2
// atan(11.8 / 4000) = 20.3'; of 78 px on 1024 x 600: 16.7 mm, 28.7'; of 103 px on 1280 x 800: 17.5 mm, 30.1';
// of 139 px on 1920 x 1080: 25.0 mm, 43.0'. A figure takes less where its box is too narrow for it: from 10
// on, or a loss that is only guessed, a range in words.
TEST_CASE("Load rate, speed and loss are read from 2 m by 20 minutes of arc on any screen") {
    const auto [width, height, diagonal_inch] =
        GENERATE(std::tuple(800, 480, 7.0), std::tuple(1024, 600, 10.0), std::tuple(1280, 800, 10.1),
                 std::tuple(1920, 1080, 15.6));
    INFO(width << " x " << height);
    const double px_per_mm = std::hypot(width, height) / (25.4 * diagonal_inch);
    const auto [w, h] = std::pair(static_cast<float>(width), static_cast<float>(height));
    const Box right = {w / 2, 0.12F * h, w / 2, 0.4F * h};
    const Box upper_left = {0.0F, 0.12F * h, w / 2, 0.36F * h};
    const Box lower_left = {0.0F, 0.48F * h, w / 2, 0.4F * h};
    {
        SceneDesk desk(w, h);
        desk.session().skip_cautions();
        desk.session().playback().seek(desk.session().recording().first_us + 3000 * podrate::kSecondUs);
        desk.frame_without_strip();
        REQUIRE(desk.session().figures().known);
        REQUIRE(sign_heights(right).size() > 2);
        REQUIRE(desk.session().figures().loss.sureness != Sureness::guess);
        for (const Box& box : {right, upper_left, lower_left}) {
            REQUIRE(sign_heights(box).size() > 2);
            CHECK(arcmin(sign_heights(box)[0], px_per_mm, 2000.0) >= 20.0);
        }
    }
    // Live, where targets take room.
    LiveMachine machine;
    machine.run(20.0);
    SceneDesk desk(machine, w, h);
    desk.session().skip_cautions();
    desk.frame();
    REQUIRE(desk.session().figures().rate == "0.0");
    CHECK(arcmin(sign_heights(right)[0], px_per_mm, 2000.0) >= 20.0);
    CHECK(arcmin(sign_heights(upper_left)[0], px_per_mm, 2000.0) >= 20.0);
}

TEST_CASE("An angle of a known height is the textbook's") {
    CHECK(arcmin(100.0, 1.0, 100.0 / (2.0 * std::tan(0.5 * kPi / 180.0))) == Approx(60.0));
    CHECK(arcmin(11.636, 1.0, 2000.0) == Approx(20.0).epsilon(1e-4));
}
