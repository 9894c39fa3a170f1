// The bench by mouse and keys, and its pictures, on a screen in memory.
#include "settings/settings.hpp"
#include "ui/bench_desk.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

struct Size {
    float width;
    float height;
};

constexpr Size kSizes[] = {{800, 480}, {1024, 600}, {1280, 800}, {1920, 1080}, {600, 1024}};
constexpr Speech kSpeeches[] = {{Language::english, Units::metric},
                                {Language::english, Units::us},
                                {Language::german, Units::metric},
                                {Language::german, Units::us}};

}  // namespace

TEST_CASE("No word of the bench is cut at any size, in either language and system of units") {
    const Size size = GENERATE(from_range(std::begin(kSizes), std::end(kSizes)));
    const Speech say = GENERATE(from_range(std::begin(kSpeeches), std::end(kSpeeches)));
    const float scale = GENERATE(1.0F, static_cast<float>(kLeastScale));
    // At its least, words of the longest language tell.
    if (scale < 1.0F && (say.language != Language::german || say.units != Units::us)) return;
    INFO(size.width << " x " << size.height << (say.language == Language::german ? ", German" : ", English")
                    << (say.units == Units::us ? ", US" : ", metric") << ", scale " << scale);
    BenchDesk desk(size.width, size.height, say, scale);
    desk.press(Key::m);
    for (std::size_t i = 0; i < kParameterCount; i += 5) {
        desk.bench().choose(i);
        CHECK(desk.cut() == "");
    }
    desk.set("hopper_nearly_full_share", "0.3");
    desk.set("rate_low_share", "1");
    desk.set("wanted_rate_kgps", "4");
    CHECK(desk.cut() == "");
    desk.wait();
    for (int table = 0; table < kBenchTables; ++table) {
        desk.press(Key::t);
        CHECK(desk.cut() == "");
    }
    desk.press(Key::c);
    desk.press(Key::f);
    desk.type("zzz");
    CHECK(desk.cut() == "");
    desk.press(Key::enter);
    CHECK(desk.cut() == "");
    desk.press(Key::escape);
    desk.press(Key::s);
    CHECK(desk.cut() == "");
    desk.press(Key::enter);
    desk.press(Key::enter);
    CHECK(desk.cut() == "");
    desk.type("Wet corner of the long field by the river: full hopper told earlier on the slope");
    CHECK(desk.cut() == "");
    desk.press(Key::enter);
    while (desk.bench().table() != BenchTable::history) desk.press(Key::t);
    CHECK(desk.cut() == "");
}

namespace {

// Screens of all sizes at once, so that one bench is drawn on each.
class Screens {
  public:
    Screens() {
        for (const Size& size : kSizes) {
            for (const float scale : {1.0F, static_cast<float>(kLeastScale)}) add(size, scale);
        }
    }
    ~Screens() {
        for (const One& one : all_) ImGui::DestroyContext(one.context);
    }
    Screens(const Screens&) = delete;
    Screens& operator=(const Screens&) = delete;

    // Words that are cut somewhere, each on a line with the screen it is cut on.
    std::string cut(Bench& bench) {
        std::string all;
        for (One& one : all_) {
            ImGui::SetCurrentContext(one.context);
            ImGui::NewFrame();
            ImGui::SetNextWindowPos({0, 0});
            ImGui::SetNextWindowSize({one.size.width, one.size.height});
            ImGui::Begin("bench", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoSavedSettings);
            Canvas canvas(*ImGui::GetWindowDrawList(), kDayPalette, one.fonts,
                          unit_for(one.size.width, one.size.height, one.scale));
            draw_bench_view(canvas, {0, 0, one.size.width, one.size.height}, bench);
            for (const std::string& words : canvas.cut())
                all +=
                    std::to_string(one.size.width) + " at " + std::to_string(one.scale) + ": " + words + '\n';
            ImGui::End();
            ImGui::Render();
        }
        return all;
    }

  private:
    struct One {
        Size size;
        float scale;
        ImGuiContext* context;
        Fonts fonts;
    };

    void add(const Size& size, float scale) {
        ImGuiContext* context = ImGui::CreateContext();
        ImGui::SetCurrentContext(context);
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {size.width, size.height};
        io.DeltaTime = 0.05F;
        io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
        const Fonts fonts = load_fonts(*io.Fonts, unit_for(size.width, size.height, scale),
                                       font_candidates_regular(), font_candidates_bold());
        REQUIRE(io.Fonts->Build());
        io.Fonts->SetTexID(nullptr);
        all_.push_back({size, scale, context, fonts});
    }

    std::vector<One> all_;
};

void settle(Bench& bench) {
    do {
        while (bench.busy()) std::this_thread::sleep_for(std::chrono::milliseconds(2));
        bench.refresh();
    } while (bench.busy());
}

}  // namespace

TEST_CASE("No word about an alarm is cut, whatever is known of it") {
    Screens screens;
    Bench bench(shipped_day(), {}, {}, nullptr);
    const auto cut = [&] {
        std::string all;
        for (const Language language : {Language::english, Language::german}) {
            bench.speak({language, Units::metric});
            all += screens.cut(bench);
        }
        return all;
    };
    for (const char* key : {"loss_high_share", "hopper_nearly_full_share", "drum_blocking_sd",
                            "hopper_leak_kg", "weight_fault_on_s", "peas_old_min"}) {
        INFO(key);
        for (std::size_t i = 0; i < kParameterCount; ++i) {
            if (std::string(key) == kParameterTable[i].name) bench.choose(i);
        }
        for (const bool together : {false, true}) {
            INFO((together ? "all machines" : "one machine"));
            if (bench.together() != together) bench.press({Key::v});
            settle(bench);
            REQUIRE(bench.table() == BenchTable::told);
            CHECK(cut() == "");
            bench.press({Key::t});
            REQUIRE(bench.table() == BenchTable::curve);
            CHECK(cut() == "");
            for (int i = 1; i < kBenchTables; ++i) bench.press({Key::t});
        }
    }
    for (const Key key : {Key::w, Key::j}) {
        bench.press({key});
        CHECK(cut() == "");
    }
    bench.go_to(1800e3);
    bench.press({Key::e});
    CHECK(cut() == "");
    bench.go_to(1900e3);
    bench.press({Key::e});
    for (const char c : std::string("eHaulm was wet along the ditch, and the reel ran low"))
        bench.type(static_cast<char32_t>(c));
    CHECK(cut() == "");
    bench.press({Key::enter});
    settle(bench);
    CHECK(cut() == "");
    CHECK(bench.book().marks().size() == 1);
}
