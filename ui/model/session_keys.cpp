// The part of the session that knows keys.
#include "driver/driver_keys.hpp"
#include "model/session.hpp"
#include "simulator/simulator.hpp"

namespace podrate::ui {
namespace {

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

// False where the key is none of the simulator's. One that is held down goes on changing the speed and does
// nothing else anew.
bool Session::drive(const KeyPress& press) {
    const SimulatorOrder order = simulator_order_of(press.key);
    if (order.action == SimulatorAction::none) return false;
    const bool of_speed = order.action == SimulatorAction::faster || order.action == SimulatorAction::slower;
    if (!press.held || of_speed) simulator_->take(order);
    return true;
}

bool Session::typing() const {
    return view_ == View::day ? desk_->typing() : bench_->typing();
}

void Session::press_desk(const KeyPress& press) {
    // Rows written are the day's own once it is opened anew, which the bench does not outlive.
    const bool writes = press.key == Key::w && !desk_->typing() && !desk_->typed().empty();
    if (view_ == View::day && writes && bench_ && !bench_->unsaved_words().empty()) {
        asks_unsaved_ = UnsavedBefore::writing;
        return;
    }
    if (view_ == View::day) desk_->press(press);
    if (view_ == View::bench) bench_->press(press);
}

void Session::press(const KeyPress& press) {
    closed_help_ = help_up_;
    if (press.key == Key::none || press.key == Key::modifier) return;
    if (asks_unsaved_) {
        if (press.held) return;
        closed_help_ = true;
        const UnsavedBefore before = *asks_unsaved_;
        stay();
        if (press.key != Key::q) return;
        if (before == UnsavedBefore::other_day) open(other_day_);
        if (before == UnsavedBefore::quitting) quit_ = true;
        if (before == UnsavedBefore::writing) desk_->press({Key::w});
        return;
    }
    if (!help_up_ && !cautions_up_) {
        if (!refusal_.empty()) {
            refusal_.clear();
            return;
        }
        if (loader_) {
            if (press.key == Key::escape) loader_->cancel();
            return;
        }
        if (at_desk() && (typing() || press.ctrl)) {
            press_desk(press);
            return;
        }
    }
    if (simulator_ != nullptr && !help_up_ && !cautions_up_ && drive(press)) return;
    const Action common = common_action_of(press);
    if (common != Action::none) {
        apply(common);
    } else if (at_desk() && !help_up_ && !cautions_up_) {
        press_desk(press);
    } else {
        apply(driver_action_of(press));
    }
}

// A question mark lies elsewhere on each keyboard. The key that has just closed the help does not open it.
void Session::type(char32_t character) {
    if (asks_unsaved_) return;
    if (at_desk() && !help_up_ && !cautions_up_) {
        const bool typed = typing();
        if (view_ == View::day) desk_->type(character);
        if (view_ == View::bench) bench_->type(character);
        if (typed) return;
    }
    if (character == U'?' && !closed_help_) apply(Action::help);
}

void Session::apply(Action action) {
    if (help_up_) {
        if (action != Action::none) help_up_ = false;
        return;
    }
    if (action == Action::quit) quit_ = may_close();
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

}  // namespace podrate::ui
