#include "model/session.hpp"

#include "day/local_time.hpp"
#include "model/clock_text.hpp"
#include "model/reading_lock.hpp"
#include "simulator/simulator.hpp"

namespace podrate::ui {
namespace {

// The night of PaletteChoice::by_hour, on the day's own clock.
constexpr int kNightFromHour = 21;
constexpr int kNightToHour = 6;

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
    desk_.emplace(day_, settings_.speech, waker());
    const std::unique_ptr<Bench> before = std::move(bench_);
    if (again) {
        desk_->look_at(machine, cursor_us.value_or(playback_.now_us()));
        desk_->window().show(shown);
        desk_->tell(note);
    }
    const View view = std::exchange(view_, View::driver);
    if (!again) look(view);
    view_ = view;
    if (again && before != nullptr) {
        make_bench(machine);
        bench_->go_on_from(*before);
    }
    settings_.last_day = day_->folder.string();
}

std::function<void()> Session::waker() const {
    return [wake = wake_] {
        if (wake) wake();
    };
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

void Session::open_other(const std::filesystem::path& folder) {
    if (unsaved().empty()) {
        open(folder);
        return;
    }
    asks_unsaved_ = UnsavedBefore::other_day;
    other_day_ = folder;
}

void Session::refresh() {
    help_up_ = help_up_ && help_allowed();
    if (bench_) bench_->refresh();
    if (desk_) {
        desk_->refresh();
        if (desk_->take_reopen()) open(day_->folder);
    }
    if (!loader_ || !loader_->done()) return;
    std::shared_ptr<const OpenDay> opened = loader_->take();
    refusal_ = loader_->why();
    loader_.reset();
    if (opened) show(std::move(opened));
}

Session::Session(Simulator& simulator, const Settings& settings)
    : source_(&simulator), simulator_(&simulator), settings_(settings) {}

void Session::drive_on(double elapsed_s) {
    if (simulator_ != nullptr && !cautions_up_ && !help_up_) simulator_->tick(elapsed_s);
}

void Session::answer(const AlarmOrder& order) {
    if (live()) source_->answer(order);
}

void Session::speak(const Speech& speech) {
    settings_.speech = speech;
    if (desk_) desk_->speak(speech);
    if (bench_) bench_->speak(speech);
}

void Session::make_bench(std::size_t machine) {
    bench_ = std::make_unique<Bench>(day_, settings_.speech, keeping_, waker());
    bench_->look_at(machine, desk_->cursor_us().value_or(playback_.shown_us()));
}

void Session::look(View view) {
    if (view == view_ || !has_day()) {
        view_ = view;
        return;
    }
    TimeUs at_us = playback_.shown_us();
    if (view_ == View::day) {
        machine_ = desk_->machine();
        at_us = desk_->cursor_us().value_or(at_us);
    } else if (view_ == View::bench) {
        machine_ = bench_->machine();
        if (const auto cursor_ms = bench_->window().cursor_ms()) at_us = day_->series.time_us(*cursor_ms);
    } else if (playback_.playing()) {
        playback_.toggle();
    }
    view_ = view;
    if (view == View::driver) playback_.seek(at_us);
    if (view == View::day) desk_->look_at(machine_, at_us);
    if (view != View::bench) return;
    if (!bench_) make_bench(machine_);
    bench_->look_at(machine_, at_us);
}

std::vector<std::string> Session::unsaved() const {
    std::vector<std::string> lines;
    if (bench_) lines = bench_->unsaved_words();
    const bool kept = asks_unsaved_ == UnsavedBefore::writing;
    const std::size_t rows =
        desk_ && !kept ? desk_->typed().trays.size() + desk_->typed().readings.size() : 0;
    if (rows > 0) lines.push_back(speech()(Text::unsaved_rows, {std::to_string(rows)}));
    return lines;
}

void Session::stay() {
    asks_unsaved_.reset();
}

bool Session::may_close() {
    if (asks_unsaved_ || unsaved().empty()) return true;
    asks_unsaved_ = UnsavedBefore::quitting;
    return false;
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
    if (!live() || simulator_ != nullptr) return true;
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
    if (has_day() && view_ == View::day) text = say(Text::title_day, {recording().label});
    if (has_day() && view_ == View::bench) text = say(Text::title_bench, {recording().label});
    if (cautions_up_) return say(Text::title_cautions, {text});
    if (help_up_) return say(Text::title_help, {text});
    if (!has_day() || view_ != View::driver) return text;
    if (!playback_.playing()) return say(Text::title_paused, {text});
    return say(Text::title_playing, {text, std::to_string(playback_.rate())});
}

}  // namespace podrate::ui
