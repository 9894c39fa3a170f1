#include "model/session.hpp"

#include "day/local_time.hpp"
#include "driver/driver_keys.hpp"
#include "model/clock_text.hpp"
#include "model/reading_lock.hpp"

namespace podrate::ui {
namespace {

// The night of PaletteChoice::by_hour, on the day's own clock.
constexpr int kNightFromHour = 21;
constexpr int kNightToHour = 6;

// What a key does whatever is shown; Action::none where that hangs on the view.
Action common_action_of(const KeyPress& press) {
    switch (press.key) {
        case Key::n: return Action::day_or_night;
        case Key::l: return Action::other_language;
        case Key::u: return Action::other_units;
        case Key::q: return Action::quit;
        case Key::f1: return Action::help;
        case Key::f2: return Action::show_driver;
        case Key::f3: return Action::show_day;
        case Key::f4: return Action::show_bench;
        default: return Action::none;
    }
}

bool of_window(Action action) {
    return action == Action::day_or_night || action == Action::other_language ||
           action == Action::other_units || action == Action::help;
}

std::optional<AlarmAnswer> answer_of(Action action) {
    switch (action) {
        case Action::note_alarm: return AlarmAnswer::note;
        case Action::put_off_alarm: return AlarmAnswer::put_off;
        case Action::bring_alarms_back: return AlarmAnswer::bring_back;
        default: return std::nullopt;
    }
}

}  // namespace

Session::Session(std::shared_ptr<const OpenDay> day, const Settings& settings) : settings_(settings) {
    show(std::move(day));
}

void Session::show(std::shared_ptr<const OpenDay> day) {
    // A day that is opened again is seen as before.
    const bool again =
        day_ && day_->folder == day->folder && day_->series.machines.size() == day->series.machines.size();
    const TimeRange shown = again ? desk_->window().shown() : TimeRange{};
    const std::optional<TimeUs> cursor_us = again ? desk_->cursor_us() : std::nullopt;
    const std::string note = again ? desk_->note() : "";
    const std::size_t machine = again ? desk_->machine() : 0;
    const TimeUs played_us = playback_.now_us();
    day_ = std::move(day);
    playback_ = Playback(day_->recording.first_us, day_->recording.last_us);
    if (again) playback_.seek(played_us);
    if (!again) machine_ = 0;
    desk_.emplace(day_, settings_.speech, [wake = wake_] {
        if (wake) wake();
    });
    if (again) {
        desk_->look_at(machine, cursor_us.value_or(playback_.now_us()));
        desk_->window().show(shown);
        desk_->tell(note);
    } else if (view_ == View::day) {
        desk_->look_at(machine_, playback_.shown_us());
    }
    const std::unique_ptr<Bench> before = std::move(bench_);
    if (before != nullptr || view_ == View::bench) {
        make_bench();
        if (again && before != nullptr) bench_->go_on_from(*before);
        bench_->look_at(again && before != nullptr ? before->machine() : machine_, playback_.shown_us());
    }
    settings_.last_day = day_->folder.string();
}

void Session::make_bench() {
    bench_ = std::make_unique<Bench>(day_, settings_.speech, keeping_, [wake = wake_] {
        if (wake) wake();
    });
}

void Session::set_wake(std::function<void()> wake) {
    wake_ = std::move(wake);
    if (day_) show(day_);
}

void Session::open(const std::filesystem::path& folder) {
    if (live()) return;
    refusal_.clear();
    loader_ = std::make_unique<DayLoader>(folder, wake_);
}

void Session::refresh() {
    help_up_ = help_up_ && help_allowed();
    if (desk_) {
        desk_->refresh();
        if (desk_->take_reopen()) open(day_->folder);
    }
    if (bench_) bench_->refresh();
    if (!loader_ || !loader_->done()) return;
    std::shared_ptr<const OpenDay> opened = loader_->take();
    refusal_ = loader_->why();
    loader_.reset();
    if (opened) show(std::move(opened));
}

void Session::press(const KeyPress& press) {
    closed_help_ = help_up_;
    if (press.key == Key::none || press.key == Key::modifier) return;
    if (!help_up_ && !cautions_up_) {
        if (!refusal_.empty()) {
            refusal_.clear();
            return;
        }
        if (loader_) {
            if (press.key == Key::escape) loader_->cancel();
            return;
        }
        if (typing() || (view_ != View::driver && has_day() && press.ctrl)) {
            press_view(press);
            return;
        }
    }
    const Action common = common_action_of(press);
    if (common != Action::none) {
        apply(common);
    } else if (view_ != View::driver && has_day() && !help_up_ && !cautions_up_) {
        press_view(press);
    } else {
        apply(driver_action_of(press));
    }
}

bool Session::typing() const {
    if (!has_day()) return false;
    return (view_ == View::day && desk_->typing()) || (view_ == View::bench && bench_->typing());
}

void Session::press_view(const KeyPress& press) {
    if (view_ == View::day) desk_->press(press);
    if (view_ == View::bench) bench_->press(press);
}

// A question mark lies elsewhere on each keyboard. The key that has just closed the help does not open it.
void Session::type(char32_t character) {
    if (!help_up_ && typing()) {
        if (view_ == View::day) desk_->type(character);
        if (view_ == View::bench) bench_->type(character);
        return;
    }
    if (character == U'?' && !closed_help_) apply(Action::help);
}

void Session::apply(Action action) {
    if (help_up_) {
        if (action != Action::none) help_up_ = false;
        return;
    }
    if (action == Action::quit) quit_ = true;
    if (cautions_up_) {
        if (action == Action::play_or_pause) cautions_up_ = false;
        return;
    }
    if (const auto answer = answer_of(action); answer && live()) {
        const DriverFigures shown = figures();
        if (shown.alarm.shown || *answer == AlarmAnswer::bring_back)
            source_->answer({*answer, shown.alarm.alarm});
        return;
    }
    if (!has_day() && !of_window(action)) return;
    Speech speech = settings_.speech;
    switch (action) {
        case Action::play_or_pause: playback_.toggle(); break;
        case Action::back_30_s: playback_.step(-30.0); break;
        case Action::on_30_s: playback_.step(30.0); break;
        case Action::back_5_min: playback_.step(-300.0); break;
        case Action::on_5_min: playback_.step(300.0); break;
        case Action::to_start: playback_.seek_share(0.0); break;
        case Action::to_end: playback_.seek_share(1.0); break;
        case Action::faster: playback_.faster(); break;
        case Action::slower: playback_.slower(); break;
        case Action::next_machine: machine_ = (machine_ + 1) % recording().machines.size(); break;
        case Action::day_or_night: set_night(!night()); break;
        case Action::other_language:
            speech.language = speech.language == Language::english ? Language::german : Language::english;
            speak(speech);
            break;
        case Action::other_units:
            speech.units = speech.units == Units::metric ? Units::us : Units::metric;
            speak(speech);
            break;
        case Action::show_driver: look(View::driver); break;
        case Action::show_day: look(View::day); break;
        case Action::show_bench: look(View::bench); break;
        case Action::help: help_up_ = help_allowed(); break;
        case Action::note_alarm:
        case Action::put_off_alarm:
        case Action::bring_alarms_back:
        case Action::quit:
        case Action::other_key:
        case Action::none: break;
    }
}

void Session::answer(const AlarmOrder& order) {
    if (live()) source_->answer(order);
}

void Session::speak(const Speech& speech) {
    settings_.speech = speech;
    if (desk_) desk_->speak(speech);
    if (bench_) bench_->speak(speech);
}

void Session::look(View view) {
    if (view == view_ || !has_day()) {
        view_ = view;
        return;
    }
    if (view_ != View::driver) {
        const bool day = view_ == View::day;
        machine_ = day ? desk_->machine() : bench_->machine();
        if (const auto at_us = day ? desk_->cursor_us() : bench_->cursor_us()) playback_.seek(*at_us);
    }
    if (view != View::driver && playback_.playing()) playback_.toggle();
    if (view == View::day) desk_->look_at(machine_, playback_.shown_us());
    if (view == View::bench) {
        if (!bench_) make_bench();
        bench_->look_at(machine_, playback_.shown_us());
    }
    view_ = view;
}

bool Session::night() const {
    if (settings_.palette != PaletteChoice::by_hour) return settings_.palette == PaletteChoice::night;
    if (!live() && !has_day()) return false;
    const TimeUs shown_us = live() ? source_->now_us() : playback_.shown_us();
    const std::string& zone = live() ? source_->time_zone() : recording().time_zone;
    const int hour = sim::local_time(shown_us, zone).second_of_day / 3600;
    return hour >= kNightFromHour || hour < kNightToHour;
}

bool Session::help_allowed() const {
    if (!live()) return true;
    const std::optional<Estimate> newest = source_->newest();
    return may_read(newest ? &*newest : nullptr);
}

bool Session::choose_machine(const std::string& id) {
    for (std::size_t i = 0; i < recording().machines.size(); ++i) {
        if (recording().machines[i].id != id) continue;
        machine_ = i;
        return true;
    }
    return false;
}

DriverFigures Session::figures() const {
    return live() ? source_->figures(speech())
                  : driver_figures(recording(), machine_, playback_.shown_us(), speech());
}

std::string Session::title() const {
    const Speech& say = settings_.speech;
    if (loader_) return say(Text::title_opening, {loader_->folder().filename().string()});
    std::string text = "Podrate";
    if (live()) text = "Podrate: " + source_->title(say);
    if (has_day() && view_ == View::driver)
        text = "Podrate: " + recording().machines[machine_].id + ' ' +
               clock_text(playback_.shown_us(), recording().time_zone, true);
    if (has_day() && view_ != View::driver) text = say(Text::title_day, {recording().label});
    if (cautions_up_) return say(Text::title_cautions, {text});
    if (help_up_) return say(Text::title_help, {text});
    if (!has_day() || view_ != View::driver) return text;
    if (!playback_.playing()) return say(Text::title_paused, {text});
    return say(Text::title_playing, {text, std::to_string(playback_.rate())});
}

}  // namespace podrate::ui
