// The simulator as it is drawn: every word has its room, and that it is no machine is always to be seen.
#include "simulator/simulator_strip.hpp"

#include <imgui.h>

#include <catch2/catch.hpp>

#include "app/picture.hpp"
#include "app/scene.hpp"
#include "driver/driver_view.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

struct StripSize {
    int width;
    int height;
};

constexpr StripSize kStripSizes[] = {{800, 480},  {1024, 600},  {1280, 720},
                                     {1280, 800}, {1920, 1080}, {600, 1024}};

constexpr Speech kStripSpeeches[] = {{Language::english, Units::metric},
                                     {Language::english, Units::us},
                                     {Language::german, Units::metric},
                                     {Language::german, Units::us}};

// Type is made once for each size.
class StripScreen {
  public:
    explicit StripScreen(StripSize size, float scale = 1.0F)
        : scale_(scale), context_(ImGui::CreateContext()) {
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {static_cast<float>(size.width), static_cast<float>(size.height)};
        unit_ = simulator_unit(io.DisplaySize.x, io.DisplaySize.y, scale);
        fonts_ = load_fonts(*io.Fonts, unit_, font_candidates_regular(), font_candidates_bold());
        REQUIRE(io.Fonts->Build());
        io.Fonts->SetTexID(nullptr);
    }
    ~StripScreen() { ImGui::DestroyContext(context_); }
    StripScreen(const StripScreen&) = delete;
    StripScreen& operator=(const StripScreen&) = delete;

    // Words that found no room in view and strip, each on a line.
    std::string cut(const DriverFigures& above, const SimulatorFigures& below) {
        ImGui::NewFrame();
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        ImDrawList& list = *ImGui::GetBackgroundDrawList();
        Canvas canvas(list, kDayPalette, fonts_, unit_);
        Box area = {0, 0, size.x, size.y};
        draw_simulator_strip(canvas, area.take_bottom(simulator_strip_height(canvas, area.w)), below);
        Canvas smaller(list, kDayPalette, fonts_, unit_for(area.w, area.h, scale_));
        draw_driver_view(smaller, area, above);
        ImGui::Render();
        std::string all;
        for (const Canvas* drawn : {&canvas, &smaller}) {
            for (const std::string& words : drawn->cut()) all += words + '\n';
        }
        return all;
    }

  private:
    float scale_;
    ImGuiContext* context_;
    float unit_ = 1.0F;
    Fonts fonts_;
};

// The widest that each line comes to be.
SimulatorFigures crowded_strip(const Simulator& simulator, const Speech& say, const std::string& notice) {
    SimulatorFigures f = simulator_figures(simulator, say);
    f.pace = say(Text::sim_paused);
    f.pause_key = say(Text::sim_key_pause);
    f.notice = notice;
    f.refused = true;
    f.controls[0].state = say.number(8.8, 1) + (say.units == Units::us ? " mph" : " km/h");
    f.controls[2].state = say(Text::sim_tip_left, {"47"});
    f.controls[3].state = "10x";
    for (FaultLine& fault : f.faults) fault.on = true;
    for (BesideLine& line : f.beside) {
        line.truth = line.name == say(Text::hopper) && say.units == Units::us ? "4410" : say.number(12.3, 1);
        line.told = say.range(line.truth, line.truth);
        line.verdict = say(Text::sim_misses);
        line.so_far = "100 %";
    }
    f.score[0].value = "100 %";
    f.score[1].value = say.units == Units::us ? "99990 lb" : say.number(45.67, 2) + " t";
    f.score[2].value = "100 %";
    f.score[3].value = f.score[4].value = say(Text::sim_minutes, {say.number(123.4, 1)});
    return f;
}

}  // namespace

TEST_CASE("No word of the simulator is cut on any size of screen") {
    const StripSize size = GENERATE(from_range(std::begin(kStripSizes), std::end(kStripSizes)));
    const float scale = GENERATE(1.0F, static_cast<float>(kLeastScale));
    StripScreen screen(size, scale);
    Simulator simulator(1, Parameters(), ".");
    demonstrate(simulator);
    for (const Speech& say : kStripSpeeches) {
        INFO(size.width << " x " << size.height
                        << (say.language == Language::german ? ", German" : ", English") << ", scale "
                        << scale << (say.units == Units::us ? ", US" : ", metric"));
        const DriverFigures above = simulator.figures(say);
        for (const Text text :
             {Text::sim_begin, Text::sim_left_standing, Text::sim_lift_to_turn, Text::sim_turning,
              Text::sim_no_tip_moving, Text::sim_no_tip_reel, Text::sim_no_tip_empty,
              Text::sim_no_while_tipping, Text::sim_no_reel_turning, Text::sim_field_done}) {
            SimulatorFigures below = crowded_strip(simulator, say, say(text));
            CHECK(screen.cut(above, below) == "");
            below.second_page = true;
            below.page_key = say(Text::sim_page_back);
            CHECK(screen.cut(above, below) == "");
        }
        CHECK(screen.cut(above, crowded_strip(simulator, say, say(Text::sim_saved, {"simulated_123"}))) ==
              "");
    }
}

TEST_CASE("The view above the strip finds its room through a drive") {
    const StripSize size = GENERATE(from_range(std::begin(kStripSizes), std::end(kStripSizes)));
    INFO(size.width << " x " << size.height);
    Simulator simulator(4, Parameters(), ".");
    const Speech say = {Language::german, Units::us};
    StripScreen screen(size);
    const auto look = [&] {
        CHECK(screen.cut(simulator.figures(say), simulator_figures(simulator, say)) == "");
    };
    look();
    simulator.take(simulator_order_of(Key::space));
    simulator.take(simulator_order_of(Key::right));
    for (std::size_t fault = 0; fault < 9; ++fault) {
        for (int i = 0; i < 12; ++i) simulator.tick(1.0);
        simulator.take({SimulatorAction::turn_fault, fault});
        look();
        for (int i = 0; i < 15; ++i) simulator.tick(1.0);
        look();
        simulator.take({SimulatorAction::turn_fault, fault});
    }
}

TEST_CASE("The simulator's picture is the same for the same drive, and framed by day and by night") {
    Simulator simulator(1, Parameters(), ".");
    demonstrate(simulator);
    Session session(simulator);
    session.skip_cautions();
    for (const bool night : {false, true}) {
        session.set_night(night);
        const Image image = picture_of(session, 800, 480);
        CHECK(image.rgba == picture_of(session, 800, 480).rgba);
        const Rgb mark = session.palette().quiet;
        int marked = 0;
        for (int x = 0; x < 800; ++x) {
            const std::size_t at = 4 * static_cast<std::size_t>(x);
            if (image.rgba[at] == mark.r && image.rgba[at + 1] == mark.g && image.rgba[at + 2] == mark.b)
                ++marked;
        }
        CHECK(marked > 300);
        CHECK(marked < 500);
    }
    const Image first = picture_of(session, 800, 480);
    simulator.take(simulator_order_of(Key::tab));
    CHECK(picture_of(session, 800, 480).rgba != first.rgba);
}
