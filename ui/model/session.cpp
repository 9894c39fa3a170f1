#include "model/session.hpp"

#include "model/clock_text.hpp"

namespace podrate::ui {

void Session::apply(Action action) {
    if (action == Action::quit) quit_ = true;
    if (cautions_up_) {
        if (action == Action::play_or_pause) cautions_up_ = false;
        return;
    }
    if (live_ != nullptr && action != Action::day_or_night) return;
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
        case Action::day_or_night: night_ = !night_; break;
        case Action::quit:
        case Action::none: break;
    }
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
    return live_ != nullptr ? live_->figures() : driver_figures(recording_, machine_, playback_.shown_us());
}

std::string Session::title() const {
    if (live_ != nullptr) return "Podrate: " + live_->title() + (cautions_up_ ? ", cautions" : "");
    std::string text = "Podrate: " + recording_.machines[machine_].id + ' ' +
                       clock_text(playback_.shown_us(), recording_.time_zone, true);
    if (cautions_up_) return text + ", cautions";
    return text + (playback_.playing() ? ", playing " + std::to_string(playback_.rate()) + "x" : ", paused");
}

}  // namespace podrate::ui
