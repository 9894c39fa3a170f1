// What the window shows and what keys do to it: no drawing, no window.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "bench/bench.hpp"
#include "caution/unsaved_before.hpp"
#include "day/day_desk.hpp"
#include "input/key.hpp"
#include "loading/day_loader.hpp"
#include "model/live_source.hpp"
#include "model/open_day.hpp"
#include "model/playback.hpp"
#include "settings/settings.hpp"
#include "text/text.hpp"
#include "theme/palette.hpp"

namespace podrate::ui {

class Simulator;

enum class Action {
    none,
    play_or_pause,
    back_30_s,
    on_30_s,
    back_5_min,
    on_5_min,
    to_start,
    to_end,
    faster,
    slower,
    next_machine,
    day_or_night,
    other_language,
    other_units,
    note_alarm,  // of a live machine: what its bottom line tells
    put_off_alarm,
    bring_alarms_back,
    show_driver,
    show_day,
    show_bench,
    help,
    other_key,  // closes the help and does nothing else
    quit,
};

enum class View { driver, day, bench };

class Session {
  public:
    // Nothing is open yet.
    explicit Session(const Settings& settings) : settings_(settings) {}
    explicit Session(std::shared_ptr<const OpenDay> day, const Settings& settings = {});
    // Shows a machine as it speaks, instead of a recording; `live` outlives it.
    explicit Session(LiveSource& live, const Settings& settings = {}) : source_(&live), settings_(settings) {}

    // Shows the simulator; it outlives it.
    explicit Session(Simulator& simulator, const Settings& settings = {});

    // `wake` is called from other threads when there is something new to draw.
    void set_wake(std::function<void()> wake);
    // Where the bench keeps its sets; before a day is shown.
    void set_keeping(SetKeeping keeping) { keeping_ = std::move(keeping); }
    // Begins to open a day; the one that is open is shown again where that is called off or fails. Nothing
    // happens to a live machine.
    void open(const std::filesystem::path& folder);
    // The same, where what would be lost by it is asked about first.
    void open_other(const std::filesystem::path& folder);
    // Calls off what is being opened and waits for its end.
    void stop_opening() { loader_.reset(); }
    // To be called before each frame: takes a day that has been opened, closes the help where it may no
    // longer be read.
    void refresh();

    // A key of the keyboard, and a character that was typed with it.
    void press(const KeyPress& press);
    void type(char32_t character);
    // While the cautions of the start are up, play_or_pause takes them down and everything but quit does
    // nothing. While the help is up, anything closes it.
    void apply(Action action);

    // To an alarm as it was seen. Nothing happens to a recording.
    void answer(const AlarmOrder& order);
    // Of the screen, pixels; 0 where that is not known.
    void set_px_per_mm(double px_per_mm) { px_per_mm_ = px_per_mm; }
    [[nodiscard]] double px_per_mm() const { return px_per_mm_; }

    [[nodiscard]] bool live() const { return source_ != nullptr; }
    [[nodiscard]] bool has_day() const { return day_ != nullptr; }
    [[nodiscard]] const DayLoader* opening() const { return loader_.get(); }
    // Why the last day could not be opened; empty where nothing is to be told.
    [[nodiscard]] const std::string& refusal() const { return refusal_; }
    [[nodiscard]] View view() const { return view_; }
    // Shows one moment and one machine in all views.
    void look(View view);
    // Or nullptr.
    [[nodiscard]] Simulator* simulator() const { return simulator_; }
    // Lets time of the room pass in the simulator; not while cautions or help are up.
    void drive_on(double elapsed_s);
    // What the driver's view shows now.
    [[nodiscard]] DriverFigures figures() const;
    // Only where has_day().
    [[nodiscard]] const OpenDay& day() const { return *day_; }
    [[nodiscard]] const Recording& recording() const { return day_->recording; }
    [[nodiscard]] DayDesk& desk() { return *desk_; }
    [[nodiscard]] Bench& bench() { return *bench_; }
    [[nodiscard]] Playback& playback() { return playback_; }
    [[nodiscard]] const Playback& playback() const { return playback_; }
    [[nodiscard]] std::size_t machine() const { return machine_; }
    // False where there is no such machine.
    bool choose_machine(const std::string& id);
    // As they are now: keys change them.
    [[nodiscard]] const Settings& settings() const { return settings_; }
    [[nodiscard]] const Speech& speech() const { return settings_.speech; }
    [[nodiscard]] const Palette& palette() const { return night() ? kNightPalette : kDayPalette; }
    [[nodiscard]] bool night() const;
    void set_night(bool night) { settings_.palette = night ? PaletteChoice::night : PaletteChoice::day; }
    [[nodiscard]] bool cautions_up() const { return cautions_up_; }
    void skip_cautions() { cautions_up_ = false; }
    [[nodiscard]] bool help_up() const { return help_up_; }
    [[nodiscard]] bool quit() const { return quit_; }
    // What would be lost with the window or the day, a line each.
    [[nodiscard]] std::vector<std::string> unsaved() const;
    // Before what that is being asked about: Q does it all the same, anything else goes back.
    [[nodiscard]] std::optional<UnsavedBefore> asks_unsaved() const { return asks_unsaved_; }
    void stay();
    // The window's frame asks to close. False where it is asked about first; asked again, it may.
    bool may_close();

    // For the window's title: "Podrate: viner_1 15:42:10, playing 60x".
    [[nodiscard]] std::string title() const;

  private:
    [[nodiscard]] bool help_allowed() const;
    void show(std::shared_ptr<const OpenDay> day);
    void speak(const Speech& speech);
    void make_bench(std::size_t machine);
    [[nodiscard]] std::function<void()> waker() const;
    // Keys and signs go to the day's view or the bench.
    [[nodiscard]] bool at_desk() const { return has_day() && view_ != View::driver; }
    [[nodiscard]] bool typing() const;
    void press_desk(const KeyPress& press);
    bool drive(const KeyPress& press);

    std::shared_ptr<const OpenDay> day_;
    std::optional<DayDesk> desk_;
    std::unique_ptr<Bench> bench_;  // once it was looked at
    SetKeeping keeping_;
    Playback playback_{0, 0};
    LiveSource* source_ = nullptr;
    Simulator* simulator_ = nullptr;
    Settings settings_;
    std::unique_ptr<DayLoader> loader_;
    std::string refusal_;
    std::function<void()> wake_;
    View view_ = View::driver;
    std::size_t machine_ = 0;
    bool cautions_up_ = true;
    bool help_up_ = false;
    bool closed_help_ = false;  // by the key pressed last
    bool quit_ = false;
    std::optional<UnsavedBefore> asks_unsaved_;
    std::filesystem::path other_day_;  // to be opened if nobody minds
    double px_per_mm_ = 0.0;
};

}  // namespace podrate::ui
