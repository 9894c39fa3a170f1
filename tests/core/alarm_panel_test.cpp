#include "podrate/alarm/alarm_panel.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <string>
#include <vector>

using namespace podrate;

namespace {

constexpr WorkState kStates[] = {WorkState::harvesting, WorkState::turning, WorkState::paused_in_crop,
                                 WorkState::waiting,    WorkState::tipping, WorkState::travelling,
                                 WorkState::stopped};

unsigned bit(AlarmId id) {
    return 1U << static_cast<unsigned>(id);
}

AlarmId id_of(int index) {
    return static_cast<AlarmId>(index);
}

// Nothing to tell of: all values known, none past its limit.
AlarmScene quiet() {
    AlarmScene scene;
    scene.state = WorkState::harvesting;
    scene.rate_share = Real(1);
    scene.rate_wanted = true;
    scene.leak_watched = true;
    scene.holds_peas = true;
    return scene;
}

// The same with one alarm's condition far past its limit.
AlarmScene with(AlarmId id) {
    AlarmScene scene = quiet();
    switch (id) {
        case AlarmId::loss_high: scene.loss_share = Real(0.4); break;
        case AlarmId::rate_low: scene.rate_share = Real(0.2); break;
        case AlarmId::hopper_nearly_full: scene.level_share = Real(0.9); break;
        case AlarmId::hopper_full: scene.level_share = Real(1.1); break;
        case AlarmId::drum_blocking: scene.blocking_sd = Real(9); break;
        case AlarmId::hopper_leak: scene.leak_kg = Real(100); break;
        case AlarmId::weight_fault: scene.weight_fault = true; break;
        case AlarmId::speed_fault: scene.speed_fault = true; break;
        case AlarmId::tilt_fault: scene.tilt_fault = true; break;
        case AlarmId::peas_old: scene.oldest_min = Real(100); break;
    }
    return scene;
}

class Judged {
  public:
    explicit Judged(const Parameters& parameters = Parameters{}) : panel(parameters) {}
    // Shows it that scene for so long, five times a second; returns what is shown then.
    std::uint16_t hold(AlarmScene scene, double for_s = 300.0) {
        for (int i = 0; i < static_cast<int>(for_s * 5.0); ++i) {
            now_us_ += kSecondUs / 5;
            scene.now_us = now_us_;
            panel.judge(scene);
        }
        return panel.shown();
    }
    AlarmPanel panel;

  private:
    TimeUs now_us_ = 1000 * kSecondUs;
};

bool told_in(AlarmId id, WorkState state) {
    const bool harvesting = state == WorkState::harvesting;
    const bool tipping = state == WorkState::tipping;
    switch (id) {
        case AlarmId::loss_high:
        case AlarmId::rate_low:
        case AlarmId::drum_blocking: return harvesting;
        case AlarmId::hopper_nearly_full: return !tipping && state != WorkState::waiting;
        case AlarmId::hopper_full:
        case AlarmId::peas_old: return !tipping;
        case AlarmId::hopper_leak: return !tipping && !harvesting;
        default: return true;
    }
}

}  // namespace

TEST_CASE("Each alarm has a name of its own") {
    std::set<std::string> names;
    for (int i = 0; i < kAlarms; ++i) names.insert(name_of(id_of(i)));
    CHECK(names.size() == kAlarms);
    CHECK(names.count("") == 0);
}

TEST_CASE("Where nothing is past its limit nothing is shown in any state") {
    for (const WorkState state : kStates) {
        Judged judged;
        AlarmScene scene = quiet();
        scene.state = state;
        CHECK(judged.hold(scene) == 0);
    }
}

TEST_CASE("Each alarm is told by its own value, and only where the work state gives it a meaning") {
    for (int i = 0; i < kAlarms; ++i) {
        for (const WorkState state : kStates) {
            INFO(name_of(id_of(i)) << " while " << name_of(state));
            Judged judged;
            AlarmScene scene = with(id_of(i));
            scene.state = state;
            CHECK(judged.hold(scene) == (told_in(id_of(i), state) ? bit(id_of(i)) : 0U));
            const AlarmState expected =
                told_in(id_of(i), state) ? AlarmState::unacknowledged : AlarmState::suppressed;
            CHECK(judged.panel.alarm(id_of(i)).state() == expected);
        }
    }
}

TEST_CASE("An alarm that is shown ends where the work state takes its meaning away") {
    for (const AlarmId id : {AlarmId::loss_high, AlarmId::rate_low, AlarmId::drum_blocking}) {
        INFO(name_of(id));
        Judged judged;
        REQUIRE(judged.hold(with(id)) == bit(id));
        AlarmScene turning = with(id);
        turning.state = WorkState::turning;
        CHECK(judged.hold(turning, 0.2) == 0);
    }
}

TEST_CASE("A value that is not known raises nothing") {
    AlarmScene no_rate = with(AlarmId::rate_low);
    no_rate.rate_wanted = false;
    AlarmScene no_level = with(AlarmId::hopper_full);
    no_level.level_known = false;
    AlarmScene not_watched = with(AlarmId::hopper_leak);
    not_watched.leak_watched = false;
    not_watched.state = WorkState::stopped;
    AlarmScene no_peas = with(AlarmId::peas_old);
    no_peas.holds_peas = false;
    for (const AlarmScene& scene : {no_rate, no_level, not_watched, no_peas}) {
        Judged judged;
        CHECK(judged.hold(scene) == 0);
    }
}

TEST_CASE("A full hopper is not told of as nearly full as well") {
    Judged judged;
    CHECK(judged.hold(with(AlarmId::hopper_nearly_full)) == bit(AlarmId::hopper_nearly_full));
    CHECK(judged.hold(with(AlarmId::hopper_full)) == bit(AlarmId::hopper_full));
    CHECK(judged.hold(with(AlarmId::hopper_nearly_full)) == bit(AlarmId::hopper_nearly_full));
}

TEST_CASE("What a blocking drum holds back is not told of as a loss as well") {
    Judged judged;
    CHECK(judged.hold(with(AlarmId::loss_high)) == bit(AlarmId::loss_high));
    AlarmScene blocks = with(AlarmId::loss_high);
    blocks.blocking_sd = with(AlarmId::drum_blocking).blocking_sd;
    CHECK(judged.hold(blocks) == bit(AlarmId::drum_blocking));
    CHECK(judged.hold(with(AlarmId::loss_high)) == bit(AlarmId::loss_high));
}

TEST_CASE("Limit, deadband, delays and priority are those told for each alarm") {
    const Parameters p;
    const struct {
        AlarmId id;
        Real limit;
        Real deadband;
        Real on_s;
        Real off_s;
        Real priority;
    } rows[] = {
        {AlarmId::loss_high, p.loss_high_share, p.loss_high_deadband_share, p.loss_high_on_s,
         p.loss_high_off_s, p.loss_high_priority},
        {AlarmId::rate_low, p.rate_low_share, p.rate_low_deadband_share, p.rate_low_on_s, p.rate_low_off_s,
         p.rate_low_priority},
        {AlarmId::hopper_nearly_full, p.hopper_nearly_full_share, p.hopper_nearly_full_deadband_share,
         p.hopper_nearly_full_on_s, p.hopper_nearly_full_off_s, p.hopper_nearly_full_priority},
        {AlarmId::hopper_full, p.hopper_full_share, p.hopper_full_deadband_share, p.hopper_full_on_s,
         p.hopper_full_off_s, p.hopper_full_priority},
        {AlarmId::drum_blocking, p.drum_blocking_sd, p.drum_blocking_deadband_sd, p.drum_blocking_on_s,
         p.drum_blocking_off_s, p.drum_blocking_priority},
        {AlarmId::hopper_leak, p.hopper_leak_kg, p.hopper_leak_deadband_kg, p.hopper_leak_on_s,
         p.hopper_leak_off_s, p.hopper_leak_priority},
        {AlarmId::weight_fault, Real(0.5), Real(0), p.weight_fault_on_s, p.weight_fault_off_s,
         p.weight_fault_priority},
        {AlarmId::speed_fault, Real(0.5), Real(0), p.speed_fault_on_s, p.speed_fault_off_s,
         p.speed_fault_priority},
        {AlarmId::tilt_fault, Real(0.5), Real(0), p.tilt_fault_on_s, p.tilt_fault_off_s,
         p.tilt_fault_priority},
        {AlarmId::peas_old, p.peas_old_min, p.peas_old_deadband_min, p.peas_old_on_s, p.peas_old_off_s,
         p.peas_old_priority},
    };
    const AlarmPanel panel(p);
    for (const auto& row : rows) {
        INFO(name_of(row.id));
        const AlarmLimits& limits = panel.alarm(row.id).limits();
        CHECK(limits.limit == row.limit);
        CHECK(limits.deadband == row.deadband);
        CHECK(limits.on_delay_s == row.on_s);
        CHECK(limits.off_delay_s == row.off_s);
        CHECK(static_cast<int>(limits.priority) == static_cast<int>(row.priority));
        CHECK(limits.high == (row.id != AlarmId::rate_low));
    }
}

TEST_CASE("Priorities are told as 0, 1 and 2") {
    Parameters parameters;
    const AlarmPriority priorities[] = {AlarmPriority::low, AlarmPriority::medium, AlarmPriority::high};
    for (int told = 0; told < 3; ++told) {
        parameters.peas_old_priority = static_cast<Real>(told);
        CHECK(AlarmPanel(parameters).alarm(AlarmId::peas_old).limits().priority == priorities[told]);
    }
}

TEST_CASE("Latched alarms of drum, leak and sensors stay until acknowledged, the others do not") {
    const std::set<AlarmId> stay = {AlarmId::drum_blocking, AlarmId::hopper_leak, AlarmId::weight_fault,
                                    AlarmId::speed_fault, AlarmId::tilt_fault};
    for (const bool latched : {false, true}) {
        Parameters parameters;
        parameters.alarms_latched = Real(latched ? 1 : 0);
        for (int i = 0; i < kAlarms; ++i) {
            const AlarmId id = id_of(i);
            INFO(name_of(id) << (latched ? " latched" : ""));
            Judged judged(parameters);
            const WorkState state = id == AlarmId::hopper_leak ? WorkState::stopped : WorkState::harvesting;
            AlarmScene scene = with(id);
            scene.state = state;
            REQUIRE(judged.hold(scene) == bit(id));
            AlarmScene over = quiet();
            over.state = state;
            CHECK(judged.hold(over) == (latched && stay.count(id) > 0 ? bit(id) : 0U));
            judged.panel.alarm(id).acknowledge();
            CHECK(judged.hold(over) == 0);
        }
    }
}

TEST_CASE("Several alarms are shown side by side") {
    Judged judged;
    AlarmScene scene = with(AlarmId::loss_high);
    scene.weight_fault = true;
    scene.oldest_min = Real(90);
    CHECK(judged.hold(scene) ==
          (bit(AlarmId::loss_high) | bit(AlarmId::weight_fault) | bit(AlarmId::peas_old)));
}
