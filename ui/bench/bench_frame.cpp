#include "bench/bench_frame.hpp"

#include <algorithm>
#include <cmath>

#include "kit/button.hpp"

namespace podrate::ui {
namespace {

constexpr float kFrameGapUnits = 8.0F;
constexpr float kFootLineShare = 1.9F;
constexpr float kButtonUnits = 130.0F;  // the least width of one

std::string changes_words(const Bench& bench) {
    const Speech& say = bench.speech();
    const std::size_t changes = bench.edited().changes();
    std::string words = say(Text::bench_unchanged);
    if (changes == 1) words = say(Text::bench_changed_one);
    if (changes > 1) words = say(Text::bench_changed_many, {std::to_string(changes)});
    return bench.edited().unsaved() ? say(Text::bench_not_saved_yet, {words}) : words;
}

struct BenchButton {
    KeyPress press;
    Text words;
    bool on = false;
};

constexpr int kButtons = 18;

int foot_columns(const Canvas& canvas, float width_px) {
    const int fit = static_cast<int>(width_px / (kButtonUnits * canvas.unit()));
    const int lines = (kButtons + std::max(fit, 1) - 1) / std::max(fit, 1);
    return (kButtons + lines - 1) / lines;
}

}  // namespace

void draw_bench_head(Canvas& canvas, Box area, const Bench& bench) {
    const Speech& say = bench.speech();
    ImFont* font = canvas.fonts().strong;
    const Palette& palette = canvas.palette();
    const std::string right =
        bench.rerunning() ? say(Text::bench_rerunning, {say.percent(bench.share())}) : changes_words(bench);
    canvas.text(area.take_right(std::min(Canvas::width_of(font, right) + 1.0F, area.w * 0.6F),
                                2 * kFrameGapUnits * canvas.unit()),
                font, palette.text, right, Align::right);
    const std::string& machine = bench.day().day.machines[bench.machine()].id;
    const auto& from = bench.edited().from();
    canvas.text(area, font, palette.text,
                from ? say(Text::bench_title_set, {machine, from->name}) : say(Text::bench_title, {machine}));
}

float bench_foot_height(const Canvas& canvas, float width_px) {
    const int columns = foot_columns(canvas, width_px);
    const auto lines = static_cast<float>((kButtons + columns - 1) / columns);
    return kFootLineShare * Canvas::line_of(canvas.fonts().label) * lines;
}

KeyPress draw_bench_foot(Canvas& canvas, Box area, const Bench& bench) {
    const float gap = kFrameGapUnits * canvas.unit();
    if (!bench.note().empty()) {
        canvas.lines(area, canvas.fonts().label, canvas.palette().text, bench.note());
        return {};
    }
    if (bench.typing()) {
        canvas.text(area, canvas.fonts().label, canvas.palette().quiet,
                    bench.speech()(Text::bench_typing_keys));
        return {};
    }
    // Where an alarm's parameter is chosen, five stand for what is done with alarms.
    const BenchButton on_list[] = {
        {{Key::y}, Text::bench_foot_redo},
        {{Key::r}, Text::bench_foot_all},
        {{Key::f}, Text::bench_foot_filter, !bench.list().filter().empty()},
        {{Key::c}, Text::bench_foot_changed, bench.list().changed_only()},
        {{Key::f2}, Text::foot_driver},
    };
    const BenchButton on_alarm[] = {
        {{Key::e}, Text::bench_foot_mark, bench.mark_begun().has_value()},
        {{Key::d}, Text::bench_foot_drop},
        {{Key::w}, Text::bench_foot_write},
        {{Key::j}, Text::bench_foot_jump},
        {{Key::v}, Text::bench_foot_gang, bench.together()},
    };
    const BenchButton* five = bench.alarm() ? on_alarm : on_list;
    const BenchButton buttons[kButtons] = {
        {{Key::enter}, Text::bench_foot_edit},
        {{Key::z}, Text::bench_foot_undo},
        {{Key::remove}, Text::bench_foot_reset},
        {{Key::m}, Text::bench_foot_machine},
        {{Key::g}, Text::bench_foot_charts},
        {{Key::t}, Text::bench_foot_tables},
        {{Key::o}, Text::bench_foot_open},
        {{Key::b}, Text::bench_foot_before, !bench.before_name().empty()},
        {{Key::s}, Text::bench_foot_save},
        five[0],
        five[1],
        five[2],
        five[3],
        five[4],
        {{Key::p}, Text::foot_picture},
        {{Key::x}, Text::foot_table},
        {{Key::f3}, Text::bench_foot_day},
        {{Key::f1}, Text::foot_help},
    };
    const int columns = foot_columns(canvas, area.w);
    const int lines = (kButtons + columns - 1) / columns;
    const float width = (area.w - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
    const float height = (area.h - gap * static_cast<float>(lines - 1)) / static_cast<float>(lines);
    KeyPress asked;
    for (int i = 0; i < kButtons; ++i) {
        const BenchButton& one = buttons[i];
        const Box box = {area.x + static_cast<float>(i % columns) * (width + gap),
                         area.y + static_cast<float>(i / columns) * (height + gap), width, height};
        const std::string words = bench.speech()(one.words);
        if (button(canvas, box, words.c_str(), words, one.on)) asked = one.press;
    }
    return asked;
}

}  // namespace podrate::ui
