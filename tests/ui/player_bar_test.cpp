#include "player/player_bar.hpp"

#include <imgui.h>

#include <catch2/catch.hpp>

#include "app/scene.hpp"
#include "ui/scene_desk.hpp"

using namespace podrate::ui;

namespace {

constexpr float kWidth = 1280;
constexpr float kHeight = 800;

}  // namespace

TEST_CASE("A touch takes the cautions down and does nothing else") {
    SceneDesk desk;
    desk.frame();
    CHECK(desk.session().cautions_up());
    desk.click(60, 768);  // where Play will be
    CHECK_FALSE(desk.session().cautions_up());
    CHECK_FALSE(desk.session().playback().playing());
}

TEST_CASE("The strip's buttons and its track work by mouse") {
    SceneDesk desk;
    desk.session().skip_cautions();
    desk.click(60, 768);
    CHECK(desk.session().playback().playing());
    desk.click(60, 768);
    CHECK_FALSE(desk.session().playback().playing());
    desk.click(302, 768);
    CHECK(desk.session().playback().rate() == 2);
    desk.click(149, 768);
    CHECK(desk.session().playback().rate() == 1);
    desk.click(1217, 768);
    CHECK(desk.session().night());
    desk.click(953, 768);
    CHECK(desk.session().help_up());
    desk.click(953, 768);  // anywhere: the help closes, nothing else happens
    CHECK_FALSE(desk.session().help_up());
    desk.click(1068, 768);
    CHECK(desk.session().machine() == 1);
    desk.click(628, 768);  // the track's middle
    CHECK(desk.session().playback().share() == Approx(0.5).margin(0.01));
}
