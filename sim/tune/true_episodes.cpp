#include "tune/true_episodes.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/work/work_state.hpp"
#include "score/log_clock.hpp"
#include "score/loss_alarms.hpp"
#include "score/true_loss.hpp"

namespace podrate::sim {
namespace {

constexpr double kRateEpisodeS = 60.0;  // a shorter lull is none that anybody could act on
constexpr double kNearRateS = 20.0;     // as of the loss
constexpr double kNearHopperS = 20.0;
constexpr double kNearPeasS = 60.0;
constexpr double kNearDrumS = 60.0;    // a blocked drum clears in a surge
constexpr double kNearFaultS = 300.0;  // as score/fault_score looks for them
constexpr int kSeenS = 10;
constexpr double kEmptyShare = 0.05;  // of the capacity: what a tip leaves at most

AlarmTruth& of(MachineTruth& truth, AlarmId alarm) {
    return truth[static_cast<std::size_t>(alarm)];
}

bool is_state(const TrueSecond& second, WorkState state) {
    return second.state == static_cast<int>(state);
}

// Due where the value is past `limit`, a reason where it is past `loose`; `over` 1: above, -1: below. Seconds
// with a value below zero are none.
void add_past(const std::vector<double>& unix_s, const std::vector<double>& value, double limit, double loose,
              int over, double least_s, AlarmTruth& alarm) {
    const auto past = [&](double bound) {
        return spans_where(value.size(), [&value, bound, over](std::size_t i) {
            return value[i] >= 0.0 && (over > 0 ? value[i] > bound : value[i] < bound);
        });
    };
    for (const SecondsSpan& span : past(limit)) {
        if (unix_s[span.last] - unix_s[span.first] >= least_s)
            alarm.due.push_back({unix_s[span.first], unix_s[span.last]});
    }
    for (const SecondsSpan& span : past(loose))
        alarm.reasons.push_back({unix_s[span.first], unix_s[span.last]});
    alarm.known = true;
}

// Minutes since the first peas that the hopper holds were cut; negative where it holds none.
std::vector<double> oldest_min(const TruePlant& plant, double capacity_kg) {
    std::vector<double> ages;
    bool holds = false;
    double cut_s = 0.0;
    for (const TrueSecond& second : plant.seconds) {
        if (is_state(second, WorkState::tipping)) {
            if (second.mass_kg < kEmptyShare * capacity_kg) holds = false;
        } else if (!holds && second.standing_kgpm2 * second.area_rate_m2ps > 0.0) {
            holds = true;
            cut_s = second.unix_s;
        }
        ages.push_back(holds ? (second.unix_s - cut_s) / 60.0 : -1.0);
    }
    return ages;
}

// Which alarm a fault is for, and whether it must come or may.
struct FaultWord {
    FaultKind kind;
    AlarmId alarm;
    bool due;
};
constexpr FaultWord kFaultWords[] = {
    {FaultKind::weight_stuck, AlarmId::weight_fault, true},
    {FaultKind::weight_dropout, AlarmId::weight_fault, true},
    {FaultKind::weight_open, AlarmId::weight_fault, true},
    {FaultKind::rows_dropped, AlarmId::weight_fault, true},
    {FaultKind::weight_drift, AlarmId::weight_fault, false},
    // When the load reaches that place the fault's row does not say.
    {FaultKind::weight_clipped, AlarmId::weight_fault, false},
    {FaultKind::clock_jump, AlarmId::weight_fault, false},
    {FaultKind::taken_by_hand, AlarmId::weight_fault, false},
    {FaultKind::speed_stuck, AlarmId::speed_fault, true},
    {FaultKind::speed_zero, AlarmId::speed_fault, true},
    {FaultKind::rows_dropped, AlarmId::speed_fault, false},
    {FaultKind::clock_jump, AlarmId::speed_fault, false},
    {FaultKind::tilt_dead, AlarmId::tilt_fault, true},
    {FaultKind::drum_blocked, AlarmId::drum_blocking, true},
    {FaultKind::hopper_leak, AlarmId::hopper_leak, true},
    {FaultKind::taken_by_hand, AlarmId::hopper_leak, false},
};

// Whether it shows for long enough to be told. A blocked drum does where peas cut a dead time and a lag ago
// should come and none do: not over the first seconds of a bout, nor in the surge when it clears.
bool shows(const TruePlant& plant, const TrueFault& fault) {
    // A leak shows in a hopper that stands, the others at work.
    if (fault.kind == FaultKind::hopper_leak) return true;
    const bool blocked = fault.kind == FaultKind::drum_blocked;
    const auto until_shown_s =
        static_cast<std::size_t>(blocked ? std::lround(plant.drum.dead_time_s + plant.drum.lag_s) : 0);
    int shown = 0;
    for (std::size_t i = until_shown_s; i < plant.seconds.size(); ++i) {
        const TrueSecond& now = plant.seconds[i];
        if (now.unix_s < fault.start_unix_s || now.unix_s > fault.end_unix_s) continue;
        if (blocked && now.flow_kgps > 0.0) continue;
        const bool worked = is_state(plant.seconds[i - until_shown_s], WorkState::harvesting);
        if (worked && is_state(now, WorkState::harvesting)) ++shown;
    }
    return shown >= kSeenS;
}

}  // namespace

bool has_truth(const std::filesystem::path& day_folder) {
    return std::filesystem::exists(day_folder / "truth" / "model.json");
}

void add_plant_episodes(const TruePlant& plant, const Parameters& p, MachineTruth& truth) {
    const auto real = [](Real value) { return static_cast<double>(value); };
    std::vector<double> unix_s;
    std::vector<double> level;
    std::vector<double> flow;
    for (const TrueSecond& second : plant.seconds) {
        unix_s.push_back(second.unix_s);
        level.push_back(std::max(0.0, second.mass_kg / real(p.hopper_capacity_kg)));
        flow.push_back(is_state(second, WorkState::harvesting) ? second.flow_kgps : -1.0);
    }
    smooth_shares(flow, kLossMeanS);

    AlarmTruth& loss = of(truth, AlarmId::loss_high);
    LossEpisodes losses =
        loss_episodes(true_loss(plant), real(p.loss_high_share), real(p.loss_high_deadband_share));
    loss.due = std::move(losses.due);
    loss.reasons = std::move(losses.reasons);
    loss.known = true;
    loss.near_s = kNearLossS;

    const double wanted_kgps = real(p.wanted_rate_kgps);
    const double low = real(p.rate_low_share);
    add_past(unix_s, flow, low * wanted_kgps, (low + real(p.rate_low_deadband_share)) * wanted_kgps, -1,
             kRateEpisodeS, of(truth, AlarmId::rate_low));
    of(truth, AlarmId::rate_low).near_s = kNearRateS;

    const auto filled = [&](AlarmId alarm, Real limit, Real deadband) {
        add_past(unix_s, level, real(limit), real(limit - deadband), 1, 0.0, of(truth, alarm));
        of(truth, alarm).near_s = kNearHopperS;
    };
    filled(AlarmId::hopper_nearly_full, p.hopper_nearly_full_share, p.hopper_nearly_full_deadband_share);
    filled(AlarmId::hopper_full, p.hopper_full_share, p.hopper_full_deadband_share);

    add_past(unix_s, oldest_min(plant, real(p.hopper_capacity_kg)), real(p.peas_old_min),
             real(p.peas_old_min - p.peas_old_deadband_min), 1, 0.0, of(truth, AlarmId::peas_old));
    of(truth, AlarmId::peas_old).near_s = kNearPeasS;
}

void add_fault_episodes(const std::vector<TrueFault>& faults, const TruePlant& plant, MachineTruth& truth) {
    for (const AlarmId alarm : {AlarmId::drum_blocking, AlarmId::hopper_leak, AlarmId::weight_fault,
                                AlarmId::speed_fault, AlarmId::tilt_fault}) {
        of(truth, alarm).known = true;
        of(truth, alarm).near_s = kNearFaultS;
    }
    of(truth, AlarmId::drum_blocking).near_s = kNearDrumS;
    of(truth, AlarmId::hopper_leak).near_s = kNearDrumS;
    for (const TrueFault& fault : faults) {
        const AlarmSpan span{fault.start_unix_s, fault.end_unix_s};
        if (fault.kind == FaultKind::drum_blocked)
            leave_to_drum(span, of(truth, AlarmId::loss_high).due, of(truth, AlarmId::loss_high).reasons);
        for (const FaultWord& word : kFaultWords) {
            if (word.kind != fault.kind) continue;
            AlarmTruth& alarm = of(truth, word.alarm);
            if (word.due && shows(plant, fault)) alarm.due.push_back(span);
            alarm.reasons.push_back(span);
        }
    }
}

MachineTruth true_episodes(const std::filesystem::path& day_folder, const Machine& machine) {
    const TruePlant plant =
        read_true_plant(day_folder, machine.id, static_cast<double>(machine.parameters.width_m));
    MachineTruth truth;
    add_plant_episodes(plant, machine.parameters, truth);
    add_fault_episodes(read_true_faults(day_folder, machine.id), plant, truth);
    const LogClock clock(day_folder, machine.id);
    for (AlarmTruth& alarm : truth) {
        for (std::vector<AlarmSpan>* spans : {&alarm.due, &alarm.reasons}) {
            for (AlarmSpan& span : *spans)
                span = {clock.log_unix_s(span.start_unix_s), clock.log_unix_s(span.end_unix_s)};
            *spans = joined(std::move(*spans));
        }
    }
    return truth;
}

}  // namespace podrate::sim
