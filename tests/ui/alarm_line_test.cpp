#include "model/alarm_line.hpp"

#include <catch2/catch.hpp>

#include "model/driver_figures.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr TimeUs kNow = 1751032800 * kSecondUs;
constexpr TimeUs kMinuteUs = 60 * kSecondUs;
constexpr Speech kSay;

std::uint16_t bits(std::initializer_list<AlarmId> alarms) {
    unsigned all = 0;
    for (const AlarmId alarm : alarms) all |= 1U << static_cast<unsigned>(alarm);
    return static_cast<std::uint16_t>(all);
}

Estimate at_work(std::initializer_list<AlarmId> alarms) {
    Estimate e;
    e.time_us = kNow;
    e.started = true;
    e.state = WorkState::harvesting;
    e.alarms = bits(alarms);
    return e;
}

bool holds(const std::string& words, const char* part) {
    return words.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("Each alarm says in plain words what is the matter and what to do") {
    MachineRecording machine;
    machine.parameters.wanted_rate_kgps = Real(1.5);
    Estimate e = at_work({});
    e.oldest_cut_us = kNow - 46 * kMinuteUs - 20 * kSecondUs;
    e.faults = kWeightMissing | kSpeedMissing | kTiltDead;
    const auto told = [&](AlarmId alarm) {
        e.alarms = bits({alarm});
        return alarm_line(machine, e, kSay);
    };
    for (int i = 0; i < kAlarms; ++i) {
        const AlarmLine line = told(static_cast<AlarmId>(i));
        INFO(name_of(static_cast<AlarmId>(i)));
        CHECK(line.shown);
        CHECK_FALSE(line.what.empty());
        CHECK_FALSE(line.check.empty());
        CHECK(line.behind.empty());
        CHECK_FALSE(holds(line.what + line.check, "touch"));
        CHECK_FALSE(holds(line.what + line.check, "press"));
    }
    CHECK(told(AlarmId::loss_high).what == "Losing more than 15 %");
    CHECK(told(AlarmId::loss_high).check == "Slow down, look behind the machine.");
    CHECK(told(AlarmId::rate_low).what == "Load rate below 80 % of what is wanted");
    CHECK(holds(told(AlarmId::rate_low).check, "5.4 t/h"));
    CHECK(holds(told(AlarmId::hopper_nearly_full).what, "85 % full"));
    CHECK(told(AlarmId::hopper_nearly_full).check == kSay(Text::tip_caution));
    CHECK(told(AlarmId::hopper_full).what == "Hopper full: tip");
    CHECK(told(AlarmId::hopper_full).check == kSay(Text::tip_caution));
    CHECK(told(AlarmId::drum_blocking).what == "Less comes than goes in: drum may be blocking");
    CHECK(holds(told(AlarmId::drum_blocking).check, "Engine off before anybody goes near"));
    CHECK(holds(told(AlarmId::hopper_leak).what, "loses weight"));
    CHECK(holds(told(AlarmId::weight_fault).what, "No weight signal"));
    CHECK(holds(told(AlarmId::speed_fault).what, "No speed signal"));
    CHECK(holds(told(AlarmId::tilt_fault).what, "Tilt does not change"));
    CHECK(told(AlarmId::peas_old).what == "Peas 46 min in the hopper: tip soon");
    CHECK(told(AlarmId::peas_old).check == kSay(Text::tip_caution));
}

TEST_CASE("Limits in the words are those of the machine") {
    MachineRecording machine;
    machine.parameters.loss_high_share = Real(0.12);
    CHECK(alarm_line(machine, at_work({AlarmId::loss_high}), kSay).what == "Losing more than 12 %");
}

TEST_CASE("A sensor's alarm speaks of that sensor and of the fault that is up") {
    const MachineRecording machine;
    Estimate e = at_work({AlarmId::weight_fault});
    for (const Fault fault : {kWeightMissing, kWeightStuck, kWeightJump}) {
        e.faults = static_cast<std::uint8_t>(fault | kSpeedMissing);
        CHECK(alarm_line(machine, e, kSay).what == fault_words(static_cast<std::uint8_t>(fault), kSay).what);
        CHECK(holds(alarm_line(machine, e, kSay).check, "Check"));
    }
    e.alarms = bits({AlarmId::speed_fault});
    for (const Fault fault : {kSpeedMissing, kIntakeUnclear}) {
        e.faults = static_cast<std::uint8_t>(fault | kWeightMissing);
        CHECK(alarm_line(machine, e, kSay).what == fault_words(static_cast<std::uint8_t>(fault), kSay).what);
    }
    e.faults = 0;  // it has gone, the alarm's delay still runs
    CHECK(holds(alarm_line(machine, e, kSay).what, "a moment ago"));
}

TEST_CASE("Nothing is told where no alarm is shown") {
    CHECK_FALSE(alarm_line(MachineRecording{}, at_work({}), kSay).shown);
}

TEST_CASE("The highest priority goes first, as the machine's parameters set it") {
    MachineRecording machine;
    const Estimate e = at_work({AlarmId::loss_high, AlarmId::hopper_full, AlarmId::tilt_fault});
    AlarmLine line = alarm_line(machine, e, kSay);
    CHECK(line.alarm == AlarmId::hopper_full);
    CHECK(line.priority == AlarmPriority::high);
    CHECK(line.behind == "+2 more");
    machine.parameters.hopper_full_priority = Real(0);
    machine.parameters.tilt_fault_priority = Real(2);
    line = alarm_line(machine, e, kSay);
    CHECK(line.alarm == AlarmId::tilt_fault);
    CHECK(line.behind == "+2 more");
}

TEST_CASE("Of equal priority the newest goes first") {
    MachineRecording machine;
    const Estimate e = at_work({AlarmId::loss_high, AlarmId::weight_fault, AlarmId::peas_old});
    machine.alarms = {{AlarmId::weight_fault, kNow - 90 * kSecondUs, kNow - 80 * kSecondUs},
                      {AlarmId::weight_fault, kNow - 50 * kSecondUs, kNow + kSecondUs},
                      {AlarmId::peas_old, kNow - 40 * kSecondUs, kNow + kSecondUs},
                      {AlarmId::loss_high, kNow - 60 * kSecondUs, kNow + kSecondUs},
                      {AlarmId::loss_high, kNow + 5 * kSecondUs, kNow + 9 * kSecondUs}};
    std::swap(machine.alarms[1], machine.alarms[3]);
    std::swap(machine.alarms[2], machine.alarms[3]);
    CHECK(alarm_line(machine, e, kSay).alarm == AlarmId::peas_old);
    Estimate fewer = e;
    fewer.alarms = bits({AlarmId::loss_high, AlarmId::weight_fault});
    CHECK(alarm_line(machine, fewer, kSay).alarm == AlarmId::weight_fault);
    CHECK(alarm_line(machine, fewer, kSay).behind == "+1 more");
}

TEST_CASE("Around a tip every alarm leaves the words on power lines in view") {
    const MachineRecording machine;
    for (const WorkState state : {WorkState::waiting, WorkState::tipping}) {
        for (int i = 0; i < kAlarms; ++i) {
            Estimate e = at_work({static_cast<AlarmId>(i)});
            e.state = state;
            CHECK(alarm_line(machine, e, kSay).check == kSay(Text::tip_caution));
        }
    }
}
