// What the window shows and what keys do to it: no drawing, no window.
#pragma once

#include <string>

#include "model/live_source.hpp"
#include "model/playback.hpp"
#include "model/recording.hpp"
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
    help,
    other_key,  // closes the help and does nothing else
    quit,
};

class Session {
  public:
    explicit Session(Recording recording, const Settings& settings = {})
        : recording_(std::move(recording)),
          playback_(recording_.first_us, recording_.last_us),
          settings_(settings) {}

    // Shows a machine as it speaks, instead of a recording; `live` outlives it.
    explicit Session(const LiveSource& live, const Settings& settings = {})
        : playback_(0, 0), source_(&live), settings_(settings) {}

    // Shows the simulator; it outlives it.
    explicit Session(Simulator& simulator, const Settings& settings = {});

    // While the cautions of the start are up, play_or_pause takes them down and everything but quit does
    // nothing. While the help is up, anything closes it.
    void apply(Action action);

    [[nodiscard]] bool live() const { return source_ != nullptr; }
    // Or nullptr.
    [[nodiscard]] Simulator* simulator() const { return simulator_; }
    // Lets time of the room pass in the simulator; not while cautions or help are up.
    void drive_on(double elapsed_s);
    // What the driver's view shows now.
    [[nodiscard]] DriverFigures figures() const;
    [[nodiscard]] const Recording& recording() const { return recording_; }
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
    // To be called before each frame: closes the help where it may no longer be read.
    void keep_lock();
    [[nodiscard]] bool quit() const { return quit_; }

    // For the window's title: "Podrate: viner_1 15:42:10, playing 60x".
    [[nodiscard]] std::string title() const;

  private:
    [[nodiscard]] bool help_allowed() const;

    Recording recording_;
    Playback playback_;
    const LiveSource* source_ = nullptr;
    Simulator* simulator_ = nullptr;
    Settings settings_;
    std::size_t machine_ = 0;
    bool cautions_up_ = true;
    bool help_up_ = false;
    bool quit_ = false;
};

}  // namespace podrate::ui
