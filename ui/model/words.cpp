#include "model/words.hpp"

#include "log/number.hpp"
#include "log/units.hpp"
#include "podrate/estimate.hpp"

namespace podrate::ui {
namespace {

constexpr double kMostlyCommon = 0.25;  // learnt less than that: what is common decides
constexpr double kGuessRatio = 2.6;     // high over low
constexpr double kCloseRatio = 1.6;

constexpr unsigned kWeightFaults = kWeightMissing | kWeightStuck | kWeightJump;
constexpr unsigned kSpeedFaults = kSpeedMissing | kIntakeUnclear;

std::string percent(Real share) {
    return sim::fixed(100.0 * static_cast<double>(share), 0) + " %";
}

// The words of a sensor's fault while it lasts; a general line for the seconds after it.
Telling of_sensor(unsigned faults, const char* what, const char* check) {
    const Telling now = fault_words(static_cast<std::uint8_t>(faults));
    return now.what.empty() ? Telling{what, check} : now;
}

bool even_slowest_loses(const Advice& advice, const Parameters& p) {
    return advice.under_limit.known && advice.under_limit.speed_mps < p.speed_least_mps;
}

}  // namespace

const char* word_for(WorkState state) {
    switch (state) {
        case WorkState::harvesting: return "Harvesting";
        case WorkState::turning: return "Turning";
        case WorkState::paused_in_crop: return "Paused in crop";
        case WorkState::waiting: return "Waiting to tip";
        case WorkState::tipping: return "Tipping";
        case WorkState::travelling: return "Travelling";
        case WorkState::stopped: return "Stopped";
    }
    return "Stopped";
}

Telling fault_words(std::uint8_t faults) {
    if ((faults & kWeightMissing) != 0)
        return {"No weight signal. Load rate is a guess.", "Check the weigh cells' cable."};
    if ((faults & kWeightStuck) != 0)
        return {"Weight does not change. Load rate is a guess.", "Check the weigh cells."};
    if ((faults & kSpeedMissing) != 0)
        return {"No speed signal. Area stands still.", "Check the speed sensor."};
    if ((faults & kWeightJump) != 0)
        return {"The weight jumped without a tip. The total is less sure.", "Check the hopper."};
    if ((faults & kIntakeUnclear) != 0)
        return {"Peas come although speed or reel say no work. Area is wrong.", "Check both signals."};
    if ((faults & kTiltDead) != 0)
        return {"Tilt does not change. Weight is less sure on slopes.", "Check the tilt sensor."};
    return {};
}

Telling alarm_words(AlarmId alarm, const AlarmFacts& facts) {
    const Parameters& p = facts.parameters;
    switch (alarm) {
        case AlarmId::loss_high:
            return {"Losing more than " + percent(p.loss_high_share), "Slow down, look behind the machine."};
        case AlarmId::rate_low:
            return {"Load rate below " + percent(p.rate_low_share) + " of what is wanted",
                    "Wanted: " + sim::fixed(sim::kTphPerKgps * static_cast<double>(p.wanted_rate_kgps), 1) +
                        " t/h. Faster only if the loss allows it."};
        case AlarmId::hopper_nearly_full:
            return {"Hopper more than " + percent(p.hopper_nearly_full_share) + " full: trailer needed soon",
                    kTipCaution};
        case AlarmId::hopper_full: return {"Hopper full: tip", kTipCaution};
        case AlarmId::drum_blocking:
            return {"Less comes than goes in: drum may be blocking",
                    "Stop. Engine off before anybody goes near."};
        case AlarmId::hopper_leak:
            return {"Hopper loses weight while standing", "Engine off, then look at its door."};
        case AlarmId::weight_fault:
            return of_sensor(facts.faults & kWeightFaults, "The weight was in doubt a moment ago.",
                             "Check the weigh cells and their cable.");
        case AlarmId::speed_fault:
            return of_sensor(facts.faults & kSpeedFaults, "The speed was in doubt a moment ago.",
                             "Check the speed sensor.");
        case AlarmId::tilt_fault:
            return of_sensor(facts.faults & kTiltDead, "The tilt was in doubt a moment ago.",
                             "Check the tilt sensor.");
        case AlarmId::peas_old:
            return {"Peas " + sim::fixed(facts.oldest_min, 0) + " min in the hopper: tip soon", kTipCaution};
    }
    return {};
}

std::string loss_source_words(const LossSources& sources) {
    std::string words = "no tray counted yet";
    if (sources.trays > 0)
        words = std::to_string(sources.trays) + (sources.trays == 1 ? " tray counted" : " trays counted");
    if (sources.sensor) return words + ", loss sensor";
    if (sources.trays > 0) return words;
    return words + (sources.learnt < kMostlyCommon ? ": mostly what is common" : ": from weight and speed");
}

Sureness sureness_of(double low, double high) {
    if (!(low > 0.0) || high > kGuessRatio * low) return Sureness::guess;
    return high > kCloseRatio * low ? Sureness::rough : Sureness::close;
}

const char* word_for(Sureness sureness) {
    switch (sureness) {
        case Sureness::guess: return "only a guess";
        case Sureness::rough: return "roughly known";
        case Sureness::close: return "closely known";
    }
    return "";
}

std::string advice_words(const Advice& advice, const Parameters& p) {
    switch (advice.binding) {
        case Binding::loss_limit: return "faster would lose more than " + percent(p.loss_limit_share);
        case Binding::wanted_rate: return "enough for the wanted rate";
        case Binding::machine_limits:
            if (even_slowest_loses(advice, p))
                return "even the slowest may lose more than " + percent(p.loss_limit_share);
            return "the machine's limit";
        case Binding::unsure: break;
    }
    return "not known closely enough to say";
}

std::string reason_words(const Advice& advice, const Parameters& p, const std::string& right_kmph) {
    // The slowest is not called right where it loses too much.
    if (advice.binding == Binding::machine_limits && even_slowest_loses(advice, p))
        return "Even the slowest may lose more than " + percent(p.loss_limit_share);
    return right_kmph + " km/h is right: " + advice_words(advice, p);
}

}  // namespace podrate::ui
