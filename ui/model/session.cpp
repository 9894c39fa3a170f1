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

Session::Session(Simulator& simulator, const Settings& settings)
    : playback_(0, 0), source_(&simulator), simulator_(&simulator), settings_(settings) {}

void Session::drive_on(double elapsed_s) {
    if (simulator_ != nullptr && !cautions_up_ && !help_up_) simulator_->tick(elapsed_s);
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
    const bool of_view = action == Action::day_or_night || action == Action::other_language ||
                         action == Action::other_units || action == Action::help;
    if (live() && !of_view) return;
    Speech& speech = settings_.speech;
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
        case Action::next_machine: machine_ = (machine_ + 1) % recording_.machines.size(); break;
        case Action::day_or_night: set_night(!night()); break;
        case Action::other_language:
            speech.language = speech.language == Language::english ? Language::german : Language::english;
            break;
        case Action::other_units:
            speech.units = speech.units == Units::metric ? Units::us : Units::metric;
            break;
        case Action::help: help_up_ = help_allowed(); break;
        case Action::quit:
        case Action::other_key:
        case Action::none: break;
    }
}

bool Session::night() const {
    if (settings_.palette != PaletteChoice::by_hour) return settings_.palette == PaletteChoice::night;
    const TimeUs shown_us = live() ? source_->now_us() : playback_.shown_us();
    const std::string& zone = live() ? source_->time_zone() : recording_.time_zone;
    const int hour = sim::local_time(shown_us, zone).second_of_day / 3600;
    return hour >= kNightFromHour || hour < kNightToHour;
}

bool Session::help_allowed() const {
    if (!live() || simulator_ != nullptr) return true;
    const std::optional<Estimate> newest = source_->newest();
    return may_read(newest ? &*newest : nullptr);
}

void Session::keep_lock() {
    help_up_ = help_up_ && help_allowed();
}

bool Session::choose_machine(const std::string& id) {
    for (std::size_t i = 0; i < recording_.machines.size(); ++i) {
        if (recording_.machines[i].id != id) continue;
        machine_ = i;
        return true;
    }
    return false;
}

DriverFigures Session::figures() const {
    return live() ? source_->figures(speech())
                  : driver_figures(recording_, machine_, playback_.shown_us(), speech());
}

std::string Session::title() const {
    const Speech& say = settings_.speech;
    const std::string text =
        "Podrate: " + (live() ? source_->title(say)
                              : recording_.machines[machine_].id + ' ' +
                                    clock_text(playback_.shown_us(), recording_.time_zone, true));
    if (cautions_up_) return say(Text::title_cautions, {text});
    if (help_up_) return say(Text::title_help, {text});
    if (live()) return text;
    if (!playback_.playing()) return say(Text::title_paused, {text});
    return say(Text::title_playing, {text, std::to_string(playback_.rate())});
}

}  // namespace podrate::ui
