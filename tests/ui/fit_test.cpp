// Every word finds its room, on every size of screen, in every state, language and system of units.
#include <imgui.h>

#include <catch2/catch.hpp>

#include "caution/caution_view.hpp"
#include "caution/unsaved_view.hpp"
#include "day/day_view.hpp"
#include "driver/driver_view.hpp"
#include "driver/touch_size.hpp"
#include "help/help_view.hpp"
#include "player/player_bar.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

struct Size {
    float width;
    float height;
};

class Screen {
  public:
    explicit Screen(Size size, float scale = 1.0F)
        : size_(size), scale_(scale), context_(ImGui::CreateContext()) {
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {size.width, size.height};
        io.DeltaTime = 0.05F;
        io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
        fonts_ = load_fonts(*io.Fonts, unit_for(size.width, size.height, scale), font_candidates_regular(),
                            font_candidates_bold());
        REQUIRE(io.Fonts->Build());
        io.Fonts->SetTexID(nullptr);
    }
    ~Screen() { ImGui::DestroyContext(context_); }
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    // Words that were cut, each on a line.
    std::string cut(const DriverFigures& figures, bool strip, float touch_px = 0.0F) {
        return cut_by([&](Canvas&, Box whole) {
            if (strip) whole.take_bottom(player_bar_height(canvas_for(whole), whole.w));
            Canvas canvas = canvas_for(whole, touch_px);
            draw_driver_view(canvas, whole, figures, touch_px);
            return canvas.cut();
        });
    }

    // The same of whatever `draw` draws. Returns the canvas's cut words.
    template <class Draw>
    std::string cut_by(Draw draw) {
        ImGui::NewFrame();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize({size_.width, size_.height});
        ImGui::Begin("whole", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoSavedSettings);
        const Box whole = {0, 0, size_.width, size_.height};
        Canvas canvas = canvas_for(whole);
        const std::vector<std::string> cut = draw(canvas, whole);
        ImGui::End();
        ImGui::Render();
        std::string all;
        for (const std::string& words : cut) all += words + '\n';
        return all;
    }

  private:
    Canvas canvas_for(const Box& box, float touch_px = 0.0F) {
        ImDrawList& list = *ImGui::GetBackgroundDrawList();
        const Canvas plain(list, kDayPalette, fonts_, unit_for(box.w, box.h, scale_));
        return {list, kDayPalette, fonts_, driver_unit(plain, box.w, box.h, scale_, touch_px)};
    }

    Size size_;
    float scale_;
    ImGuiContext* context_;
    Fonts fonts_;
};

// A moment with the longest words that each figure can have.
Recording crowded(std::uint16_t alarms, std::uint8_t faults, WorkState state, Binding binding) {
    const Recording& shipped = shipped_recording();
    Recording recording;
    recording.label = shipped.label;
    recording.time_zone = shipped.time_zone;
    MachineRecording& machine = recording.machines.emplace_back();
    machine.id = "viner_12";
    machine.parameters = shipped.machines[0].parameters;
    machine.parameters.wanted_rate_kgps = Real(5);
    machine.loads = shipped.machines[0].loads;
    Estimate e = *shipped.machines[0].at(shipped.last_us);
    e.state = state;
    e.alarms = alarms;
    e.faults = faults;
    e.speed_mps = Real(5.5);
    e.flow_kgps = Real(5.5);
    e.flow_sd_kgps = Real(1.2);
    e.harvested_kg = Real(123456);
    e.harvested_sd_kg = Real(8000);
    e.area_m2 = Real(234567);
    e.yield_kgpm2 = Real(1.15);
    e.yield_sd_kgpm2 = Real(0.3);
    e.loss_share = Real(0.3);
    e.loss_low = Real(0.12);
    e.loss_high = Real(0.52);
    e.drum_loss_share = Real(0.2);
    e.drum_loss_low = Real(0.1);
    e.drum_loss_high = Real(0.45);
    e.picking_loss_low = Real(0.1);
    e.picking_loss_high = Real(0.45);
    e.tray_checks = 0;
    e.loss_learnt = Real(0);
    e.level_share = Real(0.4);
    e.time_to_full_s = Real(6000);
    e.distance_to_full_m = Real(12340);
    e.oldest_cut_us = e.time_us - 130 * 60 * kSecondUs;
    e.advice.binding = binding;
    e.advice.speed = {true, Real(1.6), Real(1.3), Real(2.9)};
    e.advice.under_limit = {true, Real(0.1), Real(0.1), Real(0.2)};
    e.advice.faster = {Real(-0.5), Real(0.123)};
    e.advice.slower = {Real(0.5), Real(-0.123)};
    machine.snapshots.push_back(e);
    recording.first_us = recording.last_us = e.time_us;
    return recording;
}

constexpr Size kSizes[] = {{800, 480}, {800, 500}, {1024, 600}, {1280, 800}, {1920, 1080}, {600, 1024}};

constexpr Speech kSpeeches[] = {{Language::english, Units::metric},
                                {Language::english, Units::us},
                                {Language::german, Units::metric},
                                {Language::german, Units::us}};

std::string name_of(const Speech& say) {
    return std::string(say.language == Language::german ? "German" : "English") +
           (say.units == Units::us ? ", US" : ", metric");
}

}  // namespace

TEST_CASE("No word is cut on any size of screen") {
    const Size size = GENERATE(from_range(std::begin(kSizes), std::end(kSizes)));
    const bool strip = GENERATE(false, true);
    const Speech say = GENERATE(from_range(std::begin(kSpeeches), std::end(kSpeeches)));
    const float scale = GENERATE(1.0F, static_cast<float>(kLeastScale));
    INFO(size.width << " x " << size.height << (strip ? " with the strip" : ""));
    INFO(name_of(say) << ", scale " << scale);
    Screen screen(size, scale);
    SECTION("through the shipped day") {
        const Recording& recording = shipped_recording();
        for (std::size_t machine = 0; machine < recording.machines.size(); ++machine) {
            for (TimeUs t = recording.first_us; t <= recording.last_us; t += 97 * kSecondUs)
                CHECK(screen.cut(driver_figures(recording, machine, t, say), strip).empty());
        }
    }
    SECTION("with the longest words") {
        for (int alarm = 0; alarm < kAlarms; ++alarm) {
            for (int fault = 0; fault < kFaults; ++fault) {
                const auto alarms = static_cast<std::uint16_t>(0x200U | (1U << alarm));
                Recording recording = crowded(alarms, static_cast<std::uint8_t>(1U << fault),
                                              WorkState::harvesting, Binding::loss_limit);
                CHECK(screen.cut(driver_figures(recording, 0, recording.last_us, say), strip) == "");
                recording.machines[0].parameters.peas_old_priority = Real(0);
                recording.machines[0].parameters.rate_low_priority = Real(2);
                CHECK(screen.cut(driver_figures(recording, 0, recording.last_us, say), strip) == "");
            }
        }
    }
    SECTION("in each state, with each advice") {
        for (int state = 0; state < kWorkStates; ++state) {
            for (const Binding binding :
                 {Binding::unsure, Binding::loss_limit, Binding::wanted_rate, Binding::machine_limits}) {
                const Recording recording = crowded(0, 0, static_cast<WorkState>(state), binding);
                CHECK(screen.cut(driver_figures(recording, 0, recording.last_us, say), strip) == "");
            }
        }
    }
    SECTION("without data") {
        const Recording recording = crowded(0, 0, WorkState::harvesting, Binding::unsure);
        CHECK(screen.cut(driver_figures(recording, 0, recording.last_us - kSecondUs, say), strip) == "");
    }
}

TEST_CASE("Cautions, help and the strip find their room as well") {
    const Size size = GENERATE(from_range(std::begin(kSizes), std::end(kSizes)));
    const float scale = GENERATE(1.0F, static_cast<float>(kLeastScale));
    Screen screen(size, scale);
    for (const Speech& say : kSpeeches) {
        INFO(size.width << " x " << size.height << ", " << name_of(say) << ", scale " << scale);
        CHECK(screen.cut_by([&](Canvas& canvas, const Box& whole) {
            draw_caution_view(canvas, whole, say);
            return canvas.cut();
        }) == "");
        for (const HelpKeys which :
             {HelpKeys::player, HelpKeys::live, HelpKeys::day, HelpKeys::bench, HelpKeys::simulator}) {
            CHECK(screen.cut_by([&](Canvas& canvas, const Box& whole) {
                draw_help_view(canvas, whole, say, which);
                return canvas.cut();
            }) == "");
        }
        for (const UnsavedBefore before :
             {UnsavedBefore::quitting, UnsavedBefore::other_day, UnsavedBefore::writing})
            CHECK(screen.cut_by([&](Canvas& canvas, const Box& whole) {
                const std::string machine = "viner_12";
                draw_unsaved_view(
                    canvas, whole,
                    {say(Text::unsaved_values, {machine, "12"}), say(Text::unsaved_values, {machine, "3"}),
                     say(Text::unsaved_values, {machine, "7"}), say(Text::unsaved_marks, {"14"}),
                     say(Text::unsaved_rows, {"3"})},
                    before, say);
                return canvas.cut();
            }) == "");
        Settings settings;
        settings.speech = say;
        Session session(shipped_day(), settings);
        for (const Key key : {Key::t, Key::r}) {
            DayDesk desk(shipped_day(), say);
            desk.press({key});
            for (int i = 0; i < 4; ++i) desk.press({Key::enter});
            CHECK(screen.cut_by([&](Canvas& canvas, const Box& whole) {
                draw_day_view(canvas, whole, desk);
                return canvas.cut();
            }) == "");
        }
        for (const bool together : {false, true}) {
            DayDesk desk(shipped_day(), say);
            if (together) desk.toggle_together();
            for (int page = 0; page < kChartPages; ++page, desk.next_page()) {
                desk.look_at(1, shipped_recording().first_us + 3600 * kSecondUs);
                CHECK(screen.cut_by([&](Canvas& canvas, const Box& whole) {
                    draw_day_view(canvas, whole, desk);
                    return canvas.cut();
                }) == "");
            }
        }
        for (const bool playing : {false, true}) {
            if (session.playback().playing() != playing) session.playback().toggle();
            CHECK(screen.cut_by([&](Canvas& canvas, Box whole) {
                draw_player_bar(canvas, whole.take_bottom(player_bar_height(canvas, whole.w)), session);
                return canvas.cut();
            }) == "");
        }
    }
}

TEST_CASE("Alarms that can be answered find their room beside what is touched") {
    const Size size = GENERATE(from_range(std::begin(kSizes), std::end(kSizes)));
    const Speech say = GENERATE(from_range(std::begin(kSpeeches), std::end(kSpeeches)));
    const float scale = GENERATE(1.0F, static_cast<float>(kLeastScale));
    INFO(size.width << " x " << size.height << ", " << name_of(say) << ", scale " << scale);
    const float touch_px =
        touch_side_px(assumed_px_per_mm(static_cast<int>(size.width), static_cast<int>(size.height)));
    Screen screen(size, scale);
    for (int alarm = 0; alarm < kAlarms; ++alarm) {
        for (const WorkState state : {WorkState::harvesting, WorkState::waiting}) {
            const auto alarms = static_cast<std::uint16_t>(0x200U | (1U << alarm));
            const Recording recording = crowded(alarms, 1U, state, Binding::loss_limit);
            DriverFigures figures = driver_figures(recording, 0, recording.last_us, say);
            AlarmAnswers answers;
            for (const bool put_off : {false, true}) {
                for (const bool noted : {false, true}) {
                    if (put_off) answers.put_off_until_us = {recording.last_us, recording.last_us};
                    answers.noted_us.fill(noted ? recording.last_us - 99 * 60 * kSecondUs : 0);
                    figures.answers =
                        answer_words(answers, figures.alarm, recording.last_us, recording.time_zone, say);
                    INFO("alarm " << alarm << (noted ? ", noted" : "")
                                  << (put_off ? ", others put off" : ""));
                    CHECK(screen.cut(figures, false, touch_px) == "");
                }
            }
            figures.alarm = {};
            figures.answers =
                answer_words(answers, figures.alarm, recording.last_us, recording.time_zone, say);
            CHECK(screen.cut(figures, false, touch_px) == "");
        }
    }
}

TEST_CASE("A word that has no room is told of") {
    Screen screen({800, 480});
    DriverFigures figures = driver_figures(shipped_recording(), 0, shipped_recording().last_us, Speech{});
    figures.machine = std::string(80, 'm');
    CHECK(screen.cut(figures, false) == figures.machine + '\n');
}
