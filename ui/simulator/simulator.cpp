#include "simulator/simulator.hpp"

#include <algorithm>
#include <utility>

#include "log/problem.hpp"
#include "model/clock_text.hpp"
#include "synth/hand/training_scenario.hpp"

namespace podrate::ui {
namespace {

constexpr TimeUs kSilentUs = 3 * kSecondUs / 2;  // as with a live machine
constexpr double kMostElapsedS = 1.0;
constexpr double kOneStep = 1.0 - 1e-9;
constexpr int kPaces[] = {1, 2, 5, Simulator::kMostPace};

// The next pace up or down, or the same at the end.
int other_pace(int pace, int way) {
    const auto* at = std::find(std::begin(kPaces), std::end(kPaces), pace);
    if (way > 0) return at + 1 == std::end(kPaces) ? pace : *(at + 1);
    return at == std::begin(kPaces) ? pace : *(at - 1);
}

}  // namespace

Simulator::Simulator(std::uint64_t seed, const Parameters& parameters, std::filesystem::path folder)
    : drive_(sim::training_scenario(seed, parameters), parameters),
      feed_(drive_.machine().id, drive_.parameters(), drive_.scenario().time_zone, drive_.scenario().label),
      score_(drive_.machine().drum.dead_time_s),
      folder_(std::move(folder)) {
    tell_second();
}

void Simulator::take(const SimulatorOrder& order) {
    sim::HandViner& viner = drive_.viner();
    sim::HandRefusal refused = sim::HandRefusal::none;
    switch (order.action) {
        case SimulatorAction::none: return;
        case SimulatorAction::faster: refused = viner.change_wish(1); break;
        case SimulatorAction::slower: refused = viner.change_wish(-1); break;
        case SimulatorAction::halt: refused = viner.halt(); break;
        case SimulatorAction::go_on: refused = viner.go_on(); break;
        case SimulatorAction::turn_reel: refused = viner.turn_reel(); break;
        case SimulatorAction::tip: refused = viner.tip(); break;
        case SimulatorAction::pause: paused_ = !paused_; return;
        case SimulatorAction::raise_pace: pace_ = other_pace(pace_, 1); return;
        case SimulatorAction::lower_pace: pace_ = other_pace(pace_, -1); return;
        case SimulatorAction::other_page: second_page_ = !second_page_; return;
        case SimulatorAction::turn_fault: drive_.turn_fault(order.fault); break;
        case SimulatorAction::save: return save();
    }
    notice_ = {};
    notice_.refused = refused;
}

void Simulator::save() {
    notice_ = {};
    try {
        const std::filesystem::path day = sim::free_day_folder(folder_);
        drive_.save(day);
        notice_.saved = day.filename().string();
    } catch (const sim::RefusedInput& refused) {
        notice_.failed = refused.what();
    }
}

void Simulator::tick(double elapsed_s) {
    if (paused_) return;
    owed_steps_ += std::clamp(elapsed_s, 0.0, kMostElapsedS) * pace_ * sim::kStepsPerSecond;
    for (; owed_steps_ > kOneStep; owed_steps_ -= 1.0) {
        drive_.step();
        if ((drive_.steps() - 1) % sim::kStepsPerSecond == 0) tell_second();
    }
}

// What a listener says each second, and what became of it.
void Simulator::tell_second() {
    sim::LiveFigures told;
    told.time_us = drive_.now_us();
    const TimeUs quiet_us = told.time_us - drive_.row_us();
    told.quiet_s = static_cast<double>(quiet_us) / 1e6;
    told.estimate = drive_.estimator().read();
    if (quiet_us <= kSilentUs && told.estimate.started) told.input = sim::LiveInput::good;
    feed_.take(told, drive_.estimator().last_load(), told.time_us);
    feed_.take_answers(desk_.look(drive_.estimator()));
    score_.second(drive_.viner().truth(), drive_.fault_under_way(sim::FaultKind::drum_blocked),
                  told.input == sim::LiveInput::good ? &told.estimate : nullptr);
}

void Simulator::answer(const AlarmOrder& order) {
    desk_.post(order);
    desk_.carry_out(drive_.estimator());
    feed_.take_answers(desk_.look(drive_.estimator()));
    notice_ = {};
    notice_.answered = true;
}

DriverFigures Simulator::figures(const Speech& say) const {
    DriverFigures figures = feed_.figures(drive_.now_us(), say);
    figures.machine = say(Text::sim_mark);
    return figures;
}

std::string Simulator::title(const Speech& say) const {
    const std::string clock = clock_text(drive_.now_us(), time_zone(), true);
    return paused_ ? say(Text::title_sim_paused, {clock})
                   : say(Text::title_sim, {clock, std::to_string(pace_)});
}

void demonstrate(Simulator& simulator) {
    constexpr int kWholeS = 75;
    constexpr int kSpoiltS = 30;
    constexpr std::size_t kOneCellStuck = 1;
    simulator.take({SimulatorAction::turn_reel});
    simulator.take({SimulatorAction::go_on});
    for (int i = 0; i < kWholeS; ++i) simulator.tick(1.0);
    simulator.take({SimulatorAction::turn_fault, kOneCellStuck});
    for (int i = 0; i < kSpoiltS; ++i) simulator.tick(1.0);
}

}  // namespace podrate::ui
