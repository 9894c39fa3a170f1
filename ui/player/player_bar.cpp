#include "player/player_bar.hpp"

#include <algorithm>

#include "kit/button.hpp"
#include "model/clock_text.hpp"

namespace podrate::ui {
namespace {

constexpr float kOneLineUnits = 1000.0F;
constexpr float kLineUnits = 64.0F;

void draw_track(Canvas& canvas, const Box& area, Session& session) {
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    const Recording& recording = session.recording();
    Box track = {area.x, area.y + area.h / 2 - 8 * unit, area.w, 16 * unit};
    ImGui::SetCursorScreenPos({area.x, area.y});
    ImGui::InvisibleButton("track", {area.w, area.h});
    if (ImGui::IsItemActive()) {
        session.playback().seek_share(static_cast<double>((ImGui::GetIO().MousePos.x - area.x) / area.w));
    }
    canvas.fill(track, palette.rule, 8.0F);
    const auto x_of = [&](TimeUs time_us) {
        const auto share = static_cast<double>(time_us - recording.first_us) /
                           static_cast<double>(std::max<TimeUs>(recording.last_us - recording.first_us, 1));
        return area.x + area.w * static_cast<float>(share);
    };
    const float here = area.x + area.w * static_cast<float>(session.playback().share());
    canvas.fill({track.x, track.y, here - track.x, track.h}, palette.rate, 8.0F);
    for (const Load& load : recording.machines[session.machine()].loads) {
        const float x = x_of(load.end_us);
        canvas.line({x, track.y - 6 * unit}, {x, track.bottom() + 6 * unit}, palette.text, 2.0F);
    }
    canvas.fill({here - 5 * unit, track.y - 10 * unit, 10 * unit, track.h + 20 * unit}, palette.text, 4.0F);
}

}  // namespace

float player_bar_height(const Canvas& canvas, float width_px) {
    return kLineUnits * canvas.unit() * (width_px < kOneLineUnits * canvas.unit() ? 2.0F : 1.0F);
}

void draw_player_bar(Canvas& canvas, Box area, Session& session) {
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    canvas.fill(area, palette.ground);
    canvas.line({area.x, area.y}, {area.right(), area.y}, palette.rule, 1.0F);
    area = area.inset(8 * unit);
    // Upright there is no room beside the buttons: the track has a line of its own.
    const bool two_lines = area.w < kOneLineUnits * unit;
    Box upper = area;
    if (two_lines) upper = area.take_top((area.h - 8 * unit) / 2, 8 * unit);
    const Speech& say = session.speech();
    const Playback& playback = session.playback();
    const Recording& recording = session.recording();
    const float gap = 8 * unit;
    if (button(canvas, area.take_left(110 * unit, gap), "play",
               say(playback.playing() ? Text::pause : Text::play))) {
        session.apply(Action::play_or_pause);
    }
    if (button(canvas, area.take_left(46 * unit, gap), "slower", "\xE2\x88\x92"))
        session.apply(Action::slower);
    const Box pace = area.take_left(92 * unit, gap);
    canvas.text(pace, canvas.fonts().label, palette.text, std::to_string(playback.rate()) + " \xC3\x97",
                Align::centre);
    if (button(canvas, area.take_left(46 * unit, 2 * gap), "faster", "+")) session.apply(Action::faster);
    if (button(canvas, area.take_right(110 * unit, gap), "palette",
               say(session.night() ? Text::day : Text::night))) {
        session.apply(Action::day_or_night);
    }
    if (button(canvas, area.take_right(170 * unit, gap), "machine",
               recording.machines[session.machine()].id)) {
        session.apply(Action::next_machine);
    }
    if (button(canvas, area.take_right(46 * unit, 2 * gap), "help", "?")) session.apply(Action::help);
    Box line = two_lines ? upper : area;
    const Box end = line.take_right(70 * unit, gap);
    const Box start = line.take_left(70 * unit, gap);
    canvas.text(start, canvas.fonts().label, palette.quiet,
                clock_text(recording.first_us, recording.time_zone, false));
    canvas.text(end, canvas.fonts().label, palette.quiet,
                clock_text(recording.last_us, recording.time_zone, false), Align::right);
    draw_track(canvas, line, session);
}

}  // namespace podrate::ui
