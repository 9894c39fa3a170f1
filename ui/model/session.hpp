// What the window shows and what keys do to it: no drawing, no window.
#pragma once

#include <string>

#include "model/live_source.hpp"
#include "model/playback.hpp"
#include "model/recording.hpp"
#include "theme/palette.hpp"

namespace podrate::ui {

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
    quit,
};

class Session {
  public:
    explicit Session(Recording recording)
        : recording_(std::move(recording)), playback_(recording_.first_us, recording_.last_us) {}

    // Shows a machine as it speaks, instead of a recording; `live` outlives it.
    explicit Session(const LiveSource& live) : playback_(0, 0), live_(&live) {}

    // While the cautions of the start are up, play_or_pause takes them down and everything but quit does
    // nothing.
    void apply(Action action);

    [[nodiscard]] bool live() const { return live_ != nullptr; }
    // What the driver's view shows now.
    [[nodiscard]] DriverFigures figures() const;
    [[nodiscard]] const Recording& recording() const { return recording_; }
    [[nodiscard]] Playback& playback() { return playback_; }
    [[nodiscard]] const Playback& playback() const { return playback_; }
    [[nodiscard]] std::size_t machine() const { return machine_; }
    // False where there is no such machine.
    bool choose_machine(const std::string& id);
    [[nodiscard]] const Palette& palette() const { return night_ ? kNightPalette : kDayPalette; }
    [[nodiscard]] bool night() const { return night_; }
    void set_night(bool night) { night_ = night; }
    [[nodiscard]] bool cautions_up() const { return cautions_up_; }
    void skip_cautions() { cautions_up_ = false; }
    [[nodiscard]] bool quit() const { return quit_; }

    // For the window's title: "Podrate: viner_1 15:42:10, playing 60x".
    [[nodiscard]] std::string title() const;

  private:
    Recording recording_;
    Playback playback_;
    const LiveSource* live_ = nullptr;
    std::size_t machine_ = 0;
    bool night_ = false;
    bool cautions_up_ = true;
    bool quit_ = false;
};

}  // namespace podrate::ui
