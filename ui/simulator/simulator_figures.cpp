#include "simulator/simulator_figures.hpp"

#include <cmath>

#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr const char* kNothing = "\xE2\x80\x93";

// By the order of sim::kHandFaults.
constexpr Text kFaultNames[] = {Text::sim_scale_stuck,  Text::sim_cell_stuck, Text::sim_cell_torn,
                                Text::sim_weight_gone,  Text::sim_speed_gone, Text::sim_tilt_dead,
                                Text::sim_drum_blocked, Text::sim_leak,       Text::sim_silent,
                                Text::sim_part_tip};
static_assert(sizeof kFaultNames / sizeof kFaultNames[0] == sim::kHandFaultCount);

Text words_for(sim::HandRefusal refusal) {
    switch (refusal) {
        case sim::HandRefusal::tip_moving: return Text::sim_no_tip_moving;
        case sim::HandRefusal::tip_reel_on: return Text::sim_no_tip_reel;
        case sim::HandRefusal::tip_empty: return Text::sim_no_tip_empty;
        case sim::HandRefusal::tip_under_way: return Text::sim_no_while_tipping;
        case sim::HandRefusal::reel_turning: return Text::sim_no_reel_turning;
        case sim::HandRefusal::field_done:
        case sim::HandRefusal::none: break;
    }
    return Text::sim_field_done;
}

// What the driver has to know now.
std::string outlook(const sim::HandViner& viner, const Speech& say) {
    if (viner.tip_left_s() > 0.0) return say(Text::emptying);
    if (viner.field_done()) return say(Text::sim_field_done);
    if (viner.reel_must_go_up()) return say(Text::sim_lift_to_turn);
    if (viner.turning()) return say(Text::sim_turning);
    const sim::VinerTruth& truth = viner.truth();
    if (!truth.reel_on) return say(truth.speed_mps > 0.0 ? Text::sim_left_standing : Text::sim_begin);
    return say(Text::sim_left_in_bout, {with_unit(say, Quantity::distance, viner.left_in_bout_m())});
}

void add_notice(const Simulator& simulator, SimulatorFigures& f) {
    const SimulatorNotice& notice = simulator.notice();
    f.refused = notice.refused != sim::HandRefusal::none || !notice.failed.empty();
    if (!notice.failed.empty()) {
        f.notice = f.say(Text::sim_not_saved, {notice.failed});
    } else if (!notice.saved.empty()) {
        f.notice = f.say(Text::sim_saved, {notice.saved});
    } else if (f.refused) {
        f.notice = f.say(words_for(notice.refused));
    } else if (notice.answered) {
        const AnswerWords answers = simulator.figures(f.say).answers;
        f.notice = answers.shelf.empty() ? answers.noted : answers.shelf;
    }
    if (f.notice.empty()) f.notice = outlook(simulator.drive().viner(), f.say);
}

void add_controls(const Simulator& simulator, SimulatorFigures& f) {
    const Speech& say = f.say;
    const sim::HandViner& viner = simulator.drive().viner();
    const double tip_s = viner.tip_left_s();
    f.controls = {{say(Text::sim_key_arrows), say(Text::sim_speed),
                   with_unit(say, Quantity::speed, viner.wanted_mps())},
                  {say(Text::key_space), say(Text::sim_reel),
                   say(viner.truth().reel_on ? Text::sim_reel_on : Text::sim_reel_up)},
                  {"T", say(Text::sim_tip),
                   tip_s > 0.0 ? say(Text::sim_tip_left, {say.number(tip_s, 0)}) : say(Text::sim_tip_none)},
                  {say(Text::sim_key_pace), say(Text::sim_pace), std::to_string(simulator.pace()) + 'x'},
                  {"D", say(Text::sim_save), {}}};
}

void add_faults(const Simulator& simulator, SimulatorFigures& f) {
    for (std::size_t i = 0; i < sim::kHandFaultCount; ++i) {
        const std::size_t digit = (i + 1) % sim::kHandFaultCount;
        f.faults.push_back({std::to_string(digit), f.say(kFaultNames[i]), simulator.drive().fault_on(i)});
    }
}

// As many decimals and steps as the view gives that figure.
std::string shown(const Speech& say, sim::DriveFigure which, double si) {
    switch (which) {
        case sim::DriveFigure::rate: return figure(say, Quantity::rate, si);
        case sim::DriveFigure::yield: return figure(say, Quantity::yield, si);
        case sim::DriveFigure::hopper: return figure(say, Quantity::load, si);
        case sim::DriveFigure::loss: break;
    }
    return say.number(100.0 * si, 0);
}

void add_beside(const Simulator& simulator, SimulatorFigures& f) {
    const Speech& say = f.say;
    const std::pair<sim::DriveFigure, std::string> lines[] = {
        {sim::DriveFigure::rate, say(Text::load_rate)},
        {sim::DriveFigure::yield, say(Text::yield_here)},
        {sim::DriveFigure::loss, say(Text::lost) + ", %"},
        {sim::DriveFigure::hopper, say(Text::hopper)}};
    for (const auto& [which, name] : lines) {
        const sim::TruthBeside& now = simulator.score().beside(which);
        BesideLine line = {name, kNothing, kNothing, {}, now.holds(), kNothing};
        if (now.known) {
            line.truth = shown(say, which, now.truth);
            line.told = say.range(shown(say, which, now.low), shown(say, which, now.high));
            line.verdict = say(now.holds() ? Text::sim_holds : Text::sim_misses);
        }
        const auto compared = static_cast<double>(simulator.score().compared_s(which));
        if (compared > 0.0)
            line.so_far = say.percent(static_cast<double>(simulator.score().held_s(which)) / compared);
        f.beside.push_back(line);
    }
}

std::string minutes(const Speech& say, long seconds) {
    return say(Text::sim_minutes, {say.number(static_cast<double>(seconds) / 60.0, 1)});
}

void add_score(const Simulator& simulator, SimulatorFigures& f) {
    const Speech& say = f.say;
    const sim::DriveScore& score = simulator.score();
    long compared = 0;
    long held = 0;
    for (std::size_t i = 0; i < sim::kDriveFigures; ++i) {
        compared += score.compared_s(static_cast<sim::DriveFigure>(i));
        held += score.held_s(static_cast<sim::DriveFigure>(i));
    }
    double tipped_kg = 0.0;
    for (const sim::TrueLoad& load : simulator.drive().viner().works().loads()) tipped_kg += load.net_kg;
    f.score = {
        {say(Text::sim_in_range),
         compared > 0 ? say.percent(static_cast<double>(held) / static_cast<double>(compared)) : kNothing},
        {say(Text::sim_tipped), with_unit(say, Quantity::load, tipped_kg)},
        {say(Text::sim_mean_lost), say.percent(score.mean_loss())},
        {say(Text::sim_standing), minutes(say, score.standing_s())},
        {say(Text::sim_blocked), minutes(say, score.blocked_s())}};
}

}  // namespace

SimulatorFigures simulator_figures(const Simulator& simulator, const Speech& say) {
    SimulatorFigures f;
    f.say = say;
    f.pace = simulator.paused() ? say(Text::sim_paused) : std::to_string(simulator.pace()) + 'x';
    f.pause_key = say(simulator.paused() ? Text::sim_key_go : Text::sim_key_pause);
    f.second_page = simulator.second_page();
    f.page_key = say(f.second_page ? Text::sim_page_back : Text::sim_page);
    add_notice(simulator, f);
    add_controls(simulator, f);
    add_faults(simulator, f);
    add_beside(simulator, f);
    add_score(simulator, f);
    return f;
}

}  // namespace podrate::ui
