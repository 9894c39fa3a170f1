#include "tune/alarm_trace.hpp"

#include <algorithm>

#include "podrate/alarm/choices.hpp"

namespace podrate::sim {
namespace {

enum Flag : unsigned {
    kRateWanted = 1,
    kLevelKnown = 2,
    kLeakWatched = 4,
    kWeightFault = 8,
    kSpeedFault = 16,
    kTiltFault = 32,
    kHoldsPeas = 64,
};

// The drum's sum stops at twice the limit (alarm/blockage_watch), so that limit is in the scenes as well.
constexpr Real Parameters::*kInScenes = &Parameters::drum_blocking_sd;

bool same(const AlarmLimits& a, const AlarmLimits& b) {
    return a.limit == b.limit && a.deadband == b.deadband && a.on_delay_s == b.on_delay_s &&
           a.off_delay_s == b.off_delay_s && a.latched == b.latched && a.priority == b.priority;
}

bool value_known(AlarmId alarm, const AlarmScene& scene) {
    switch (alarm) {
        case AlarmId::rate_low: return scene.rate_wanted;
        case AlarmId::hopper_nearly_full:
        case AlarmId::hopper_full: return scene.level_known;
        case AlarmId::hopper_leak: return scene.leak_watched;
        case AlarmId::peas_old: return scene.holds_peas;
        default: return true;
    }
}

}  // namespace

AlarmTrace::Seen::Seen(const AlarmScene& s)
    : now_us(s.now_us),
      loss_share(s.loss_share),
      rate_share(s.rate_share),
      level_share(s.level_share),
      blocking_sd(s.blocking_sd),
      leak_kg(s.leak_kg),
      oldest_min(s.oldest_min),
      state(static_cast<std::uint8_t>(s.state)) {
    const auto flag = [](bool is, Flag one) { return is ? static_cast<unsigned>(one) : 0U; };
    flags = static_cast<std::uint8_t>(flag(s.rate_wanted, kRateWanted) | flag(s.level_known, kLevelKnown) |
                                      flag(s.leak_watched, kLeakWatched) |
                                      flag(s.weight_fault, kWeightFault) | flag(s.speed_fault, kSpeedFault) |
                                      flag(s.tilt_fault, kTiltFault) | flag(s.holds_peas, kHoldsPeas));
}

AlarmScene AlarmTrace::Seen::scene() const {
    AlarmScene s;
    s.now_us = now_us;
    s.state = static_cast<WorkState>(state);
    s.loss_share = loss_share;
    s.rate_share = rate_share;
    s.rate_wanted = (flags & kRateWanted) != 0;
    s.level_share = level_share;
    s.level_known = (flags & kLevelKnown) != 0;
    s.blocking_sd = blocking_sd;
    s.leak_kg = leak_kg;
    s.leak_watched = (flags & kLeakWatched) != 0;
    s.weight_fault = (flags & kWeightFault) != 0;
    s.speed_fault = (flags & kSpeedFault) != 0;
    s.tilt_fault = (flags & kTiltFault) != 0;
    s.oldest_min = oldest_min;
    s.holds_peas = (flags & kHoldsPeas) != 0;
    return s;
}

std::vector<AlarmEvent> alarms_of(const AlarmTrace& trace, const Parameters& parameters) {
    AlarmPanel panel(parameters);
    AlarmEvents events;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const AlarmScene scene = trace.scene(i);
        panel.judge(scene);
        events.see(scene.now_us, panel.shown());
    }
    events.end(trace.last_us());
    return events.events();
}

std::array<double, kAlarms> judged_hours(const AlarmTrace& trace) {
    std::array<double, kAlarms> hours{};
    AlarmPanel panel{Parameters{}};
    TimeUs before_us = 0;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const AlarmScene scene = trace.scene(i);
        const TimeUs passed_us =
            i > 0 ? std::min(scene.now_us - before_us, choices::alarm::kCallLastsUs) : TimeUs(0);
        before_us = scene.now_us;
        AlarmScene calm = scene;
        calm.level_share = Real(0);  // a full hopper would suppress the alarm of a nearly full one
        panel.judge(calm);
        for (int a = 0; a < kAlarms; ++a) {
            const auto id = static_cast<AlarmId>(a);
            if (panel.alarm(id).state() == AlarmState::suppressed || !value_known(id, scene)) continue;
            hours[static_cast<std::size_t>(a)] += static_cast<double>(passed_us) / 3.6e9;
        }
    }
    return hours;
}

bool touches_alarm(const ParameterInfo& parameter, AlarmId alarm) {
    Parameters least;
    Parameters most;
    least.*parameter.member = static_cast<Real>(parameter.low);
    most.*parameter.member = static_cast<Real>(parameter.high);
    return !same(AlarmPanel(least).alarm(alarm).limits(), AlarmPanel(most).alarm(alarm).limits());
}

bool touches_alarms_alone(const ParameterInfo& parameter) {
    if (parameter.member == kInScenes) return false;
    for (int i = 0; i < kAlarms; ++i) {
        if (touches_alarm(parameter, static_cast<AlarmId>(i))) return true;
    }
    return false;
}

}  // namespace podrate::sim
