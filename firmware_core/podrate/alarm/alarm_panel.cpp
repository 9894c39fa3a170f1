#include "podrate/alarm/alarm_panel.hpp"

namespace podrate {
namespace {

constexpr Real kTrueOrFalse = Real(0.5);  // limit of an alarm whose value is 0 or 1

AlarmPriority priority_of(Real told) {
    if (told > Real(1.5)) return AlarmPriority::high;
    return told > Real(0.5) ? AlarmPriority::medium : AlarmPriority::low;
}

}  // namespace

const char* name_of(AlarmId alarm) {
    switch (alarm) {
        case AlarmId::loss_high: return "loss_high";
        case AlarmId::rate_low: return "rate_low";
        case AlarmId::hopper_nearly_full: return "hopper_nearly_full";
        case AlarmId::hopper_full: return "hopper_full";
        case AlarmId::drum_blocking: return "drum_blocking";
        case AlarmId::hopper_leak: return "hopper_leak";
        case AlarmId::weight_fault: return "weight_fault";
        case AlarmId::speed_fault: return "speed_fault";
        case AlarmId::tilt_fault: return "tilt_fault";
        case AlarmId::peas_old: return "peas_old";
    }
    return "";
}

AlarmPanel::AlarmPanel(const Parameters& p) {
    const bool latched = p.alarms_latched > kTrueOrFalse;
    const auto set = [this](AlarmId id, Real limit, Real deadband, Real on_s, Real off_s, Real priority,
                            bool high, bool latch) {
        alarm(id) = Alarm({limit, deadband, on_s, off_s, high, latch, priority_of(priority)});
    };
    set(AlarmId::loss_high, p.loss_high_share, p.loss_high_deadband_share, p.loss_high_on_s,
        p.loss_high_off_s, p.loss_high_priority, true, false);
    set(AlarmId::rate_low, p.rate_low_share, p.rate_low_deadband_share, p.rate_low_on_s, p.rate_low_off_s,
        p.rate_low_priority, false, false);
    set(AlarmId::hopper_nearly_full, p.hopper_nearly_full_share, p.hopper_nearly_full_deadband_share,
        p.hopper_nearly_full_on_s, p.hopper_nearly_full_off_s, p.hopper_nearly_full_priority, true, false);
    set(AlarmId::hopper_full, p.hopper_full_share, p.hopper_full_deadband_share, p.hopper_full_on_s,
        p.hopper_full_off_s, p.hopper_full_priority, true, false);
    set(AlarmId::drum_blocking, p.drum_blocking_sd, p.drum_blocking_deadband_sd, p.drum_blocking_on_s,
        p.drum_blocking_off_s, p.drum_blocking_priority, true, latched);
    set(AlarmId::hopper_leak, p.hopper_leak_kg, p.hopper_leak_deadband_kg, p.hopper_leak_on_s,
        p.hopper_leak_off_s, p.hopper_leak_priority, true, latched);
    set(AlarmId::weight_fault, kTrueOrFalse, Real(0), p.weight_fault_on_s, p.weight_fault_off_s,
        p.weight_fault_priority, true, latched);
    set(AlarmId::speed_fault, kTrueOrFalse, Real(0), p.speed_fault_on_s, p.speed_fault_off_s,
        p.speed_fault_priority, true, latched);
    set(AlarmId::tilt_fault, kTrueOrFalse, Real(0), p.tilt_fault_on_s, p.tilt_fault_off_s,
        p.tilt_fault_priority, true, latched);
    set(AlarmId::peas_old, p.peas_old_min, p.peas_old_deadband_min, p.peas_old_on_s, p.peas_old_off_s,
        p.peas_old_priority, true, false);
}

// An alarm is suppressed where the work state makes it say nothing that a driver could act on.
void AlarmPanel::judge(const AlarmScene& s) {
    const auto now = [&](AlarmId id, Real value, bool known, bool suppressed) {
        alarm(id).judge(s.now_us, value, known, suppressed);
    };
    const auto now_true = [&](AlarmId id, bool value) {
        alarm(id).judge(s.now_us, value ? Real(1) : Real(0), true, false);
    };
    const bool harvesting = s.state == WorkState::harvesting;
    const bool tipping = s.state == WorkState::tipping;
    now(AlarmId::drum_blocking, s.blocking_sd, true, !harvesting);
    // What a drum that blocks holds back looks like a loss.
    now(AlarmId::loss_high, s.loss_share, true, !harvesting || alarm(AlarmId::drum_blocking).active());
    now(AlarmId::rate_low, s.rate_share, s.rate_wanted, !harvesting);
    now(AlarmId::hopper_full, s.level_share, s.level_known, tipping);
    const bool full = alarm(AlarmId::hopper_full).active();
    now(AlarmId::hopper_nearly_full, s.level_share, s.level_known,
        full || tipping || s.state == WorkState::waiting);
    now(AlarmId::hopper_leak, s.leak_kg, s.leak_watched, tipping || harvesting);
    now_true(AlarmId::weight_fault, s.weight_fault);
    now_true(AlarmId::speed_fault, s.speed_fault);
    now_true(AlarmId::tilt_fault, s.tilt_fault);
    now(AlarmId::peas_old, s.oldest_min, s.holds_peas, !s.holds_peas || tipping);
}

std::uint16_t AlarmPanel::shown() const {
    unsigned bits = 0;
    for (int i = 0; i < kAlarms; ++i) bits |= alarms_[i].shown() ? 1U << i : 0U;
    return static_cast<std::uint16_t>(bits);
}

}  // namespace podrate
