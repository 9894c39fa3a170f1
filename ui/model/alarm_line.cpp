#include "model/alarm_line.hpp"

namespace podrate::ui {
namespace {

constexpr TimeUs kMinuteUs = 60 * kSecondUs;

// When an alarm that stands now began; 0 where nothing tells.
TimeUs began_us(const MachineRecording& machine, AlarmId alarm, TimeUs now_us) {
    TimeUs began = 0;
    for (const sim::AlarmEvent& event : machine.alarms) {
        if (event.start_us > now_us) break;
        if (event.alarm == alarm) began = event.start_us;
    }
    return began;
}

bool tip_comes_first(WorkState state) {
    return state == WorkState::waiting || state == WorkState::tipping;
}

}  // namespace

AlarmPriority priority_of(AlarmId alarm, const Parameters& p) {
    const auto of = [](Real told) {
        if (told > Real(1.5)) return AlarmPriority::high;
        return told > Real(0.5) ? AlarmPriority::medium : AlarmPriority::low;
    };
    switch (alarm) {
        case AlarmId::loss_high: return of(p.loss_high_priority);
        case AlarmId::rate_low: return of(p.rate_low_priority);
        case AlarmId::hopper_nearly_full: return of(p.hopper_nearly_full_priority);
        case AlarmId::hopper_full: return of(p.hopper_full_priority);
        case AlarmId::drum_blocking: return of(p.drum_blocking_priority);
        case AlarmId::hopper_leak: return of(p.hopper_leak_priority);
        case AlarmId::weight_fault: return of(p.weight_fault_priority);
        case AlarmId::speed_fault: return of(p.speed_fault_priority);
        case AlarmId::tilt_fault: return of(p.tilt_fault_priority);
        case AlarmId::peas_old: return of(p.peas_old_priority);
    }
    return AlarmPriority::low;
}

AlarmLine alarm_line(const MachineRecording& machine, const Estimate& e, const Speech& say) {
    AlarmLine line;
    int standing = 0;
    TimeUs newest_us = 0;
    for (int i = 0; i < kAlarms; ++i) {
        if ((e.alarms & (1U << i)) == 0) continue;
        ++standing;
        const auto alarm = static_cast<AlarmId>(i);
        const AlarmPriority priority = priority_of(alarm, machine.parameters);
        const TimeUs since_us = began_us(machine, alarm, e.time_us);
        const bool goes_first =
            !line.shown || priority > line.priority || (priority == line.priority && since_us > newest_us);
        if (!goes_first) continue;
        line.shown = true;
        line.alarm = alarm;
        line.priority = priority;
        newest_us = since_us;
    }
    if (!line.shown) return line;
    AlarmFacts facts{machine.parameters, e.faults, 0.0};
    if (e.oldest_cut_us > 0)
        facts.oldest_min = static_cast<double>((e.time_us - e.oldest_cut_us) / kMinuteUs);
    const Telling words = alarm_words(line.alarm, facts, say);
    line.what = words.what;
    // Around a tip nothing is more urgent to check than what a raised hopper can touch.
    line.check = tip_comes_first(e.state) ? say(Text::tip_caution) : words.check;
    if (standing > 1) line.behind = say(Text::more_behind, {std::to_string(standing - 1)});
    return line;
}

}  // namespace podrate::ui
