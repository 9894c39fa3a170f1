#include "model/words.hpp"

#include "podrate/estimate.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr double kMostlyCommon = 0.25;  // learnt less than that: what is common decides
constexpr double kGuessRatio = 2.6;     // high over low
constexpr double kCloseRatio = 1.6;

constexpr unsigned kWeightFaults = kWeightMissing | kWeightStuck | kWeightJump;
constexpr unsigned kSpeedFaults = kSpeedMissing | kIntakeUnclear;

std::string percent(Real share, const Speech& say) {
    return say.percent(static_cast<double>(share));
}

// The words of a sensor's fault while it lasts; a general line for the seconds after it.
Telling of_sensor(unsigned faults, Text what, Text check, const Speech& say) {
    const Telling now = fault_words(static_cast<std::uint8_t>(faults), say);
    return now.what.empty() ? Telling{say(what), say(check)} : now;
}

bool even_slowest_loses(const Advice& advice, const Parameters& p) {
    return advice.under_limit.known && advice.under_limit.speed_mps < p.speed_least_mps;
}

}  // namespace

Text word_for(WorkState state) {
    switch (state) {
        case WorkState::harvesting: return Text::state_harvesting;
        case WorkState::turning: return Text::state_turning;
        case WorkState::paused_in_crop: return Text::state_paused;
        case WorkState::waiting: return Text::state_waiting;
        case WorkState::tipping: return Text::state_tipping;
        case WorkState::travelling: return Text::state_travelling;
        case WorkState::stopped: return Text::state_stopped;
    }
    return Text::state_stopped;
}

Telling fault_words(std::uint8_t faults, const Speech& say) {
    if ((faults & kWeightMissing) != 0) return {say(Text::weight_missing), say(Text::weight_missing_check)};
    if ((faults & kWeightStuck) != 0) return {say(Text::weight_stuck), say(Text::weight_stuck_check)};
    if ((faults & kSpeedMissing) != 0) return {say(Text::speed_missing), say(Text::speed_check)};
    if ((faults & kWeightJump) != 0) return {say(Text::weight_jump), say(Text::weight_jump_check)};
    if ((faults & kIntakeUnclear) != 0) return {say(Text::intake_unclear), say(Text::intake_unclear_check)};
    if ((faults & kTiltDead) != 0) return {say(Text::tilt_dead), say(Text::tilt_check)};
    return {};
}

Text name_for(AlarmId alarm) {
    constexpr Text kNames[kAlarms] = {Text::alarm_loss,    Text::alarm_rate,  Text::alarm_nearly_full,
                                      Text::alarm_full,    Text::alarm_block, Text::alarm_leak,
                                      Text::alarm_weight,  Text::alarm_speed, Text::alarm_tilt,
                                      Text::alarm_peas_old};
    return kNames[static_cast<std::size_t>(alarm)];
}

Telling alarm_words(AlarmId alarm, const AlarmFacts& facts, const Speech& say) {
    const Parameters& p = facts.parameters;
    switch (alarm) {
        case AlarmId::loss_high:
            return {say(Text::loss_high, {percent(p.loss_high_share, say)}), say(Text::loss_high_check)};
        case AlarmId::rate_low: {
            const auto wanted = static_cast<double>(p.wanted_rate_kgps);
            return {say(Text::rate_low, {percent(p.rate_low_share, say)}),
                    say(Text::rate_low_check, {with_unit(say, Quantity::rate, wanted)})};
        }
        case AlarmId::hopper_nearly_full:
            return {say(Text::nearly_full, {percent(p.hopper_nearly_full_share, say)}),
                    say(Text::tip_caution)};
        case AlarmId::hopper_full: return {say(Text::hopper_full), say(Text::tip_caution)};
        case AlarmId::drum_blocking: return {say(Text::blocking), say(Text::blocking_check)};
        case AlarmId::hopper_leak: return {say(Text::leak), say(Text::leak_check)};
        case AlarmId::weight_fault:
            return of_sensor(facts.faults & kWeightFaults, Text::weight_doubt, Text::weight_doubt_check, say);
        case AlarmId::speed_fault:
            return of_sensor(facts.faults & kSpeedFaults, Text::speed_doubt, Text::speed_check, say);
        case AlarmId::tilt_fault:
            return of_sensor(facts.faults & kTiltDead, Text::tilt_doubt, Text::tilt_check, say);
        case AlarmId::peas_old:
            return {say(Text::peas_old, {say.number(facts.oldest_min, 0)}), say(Text::tip_caution)};
    }
    return {};
}

std::string loss_source_words(const LossSources& sources, const Speech& say) {
    std::string words = say(Text::tray_none);
    if (sources.trays > 0)
        words = sources.trays == 1 ? say(Text::tray_one) : say(Text::trays, {std::to_string(sources.trays)});
    if (sources.sensor) return say(Text::source_sensor, {words});
    if (sources.trays > 0) return words;
    return say(sources.learnt < kMostlyCommon ? Text::source_common : Text::source_weight, {words});
}

Sureness sureness_of(double low, double high) {
    if (!(low > 0.0) || high > kGuessRatio * low) return Sureness::guess;
    return high > kCloseRatio * low ? Sureness::rough : Sureness::close;
}

Text word_for(Sureness sureness) {
    switch (sureness) {
        case Sureness::guess: return Text::sure_guess;
        case Sureness::rough: return Text::sure_rough;
        case Sureness::close: return Text::sure_close;
    }
    return Text::sure_guess;
}

std::string advice_words(const Advice& advice, const Parameters& p, const Speech& say) {
    switch (advice.binding) {
        case Binding::loss_limit: return say(Text::why_loss, {percent(p.loss_limit_share, say)});
        case Binding::wanted_rate: return say(Text::why_wanted);
        case Binding::machine_limits:
            if (even_slowest_loses(advice, p))
                return say(Text::why_slowest, {percent(p.loss_limit_share, say)});
            return say(Text::why_limit);
        case Binding::unsure: break;
    }
    return say(Text::why_unsure);
}

std::string reason_words(const Advice& advice, const Parameters& p, const Speech& say) {
    // The slowest is not called right where it loses too much.
    if (advice.binding == Binding::machine_limits && even_slowest_loses(advice, p))
        return say(Text::slowest, {percent(p.loss_limit_share, say)});
    const auto right = static_cast<double>(advice.speed.speed_mps);
    return say(Text::is_right, {with_unit(say, Quantity::speed, right), advice_words(advice, p, say)});
}

}  // namespace podrate::ui
