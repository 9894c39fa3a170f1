#include "replay/machine_replay.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "log/machine_log.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "podrate/estimator.hpp"
#include "replay/belief_track.hpp"
#include "replay/tray_feed.hpp"

namespace podrate::sim {
namespace {

constexpr std::uint64_t kRowsPerProgress = 20000;
constexpr double kStrangeShare = 0.02;
constexpr double kStrangeKg = 60.0;
constexpr double kStrangeAreaM2 = 2000.0;
constexpr double kStrangeSpeedMps = 2.6;     // faster than anybody harvests
constexpr double kStrangeYieldKgpm2 = 0.02;  // 0.2 t/ha

class LoadList : public ReplaySink {
  public:
    void on_row(const LogRow&, const Estimate&) override {}
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    void on_load(const Load& load) override { keep_newest(loads, load); }
    std::vector<Load> loads;
};

// Feeds an estimator, and hands on what its alarms looked at.
class WatchedFeed {
  public:
    WatchedFeed(Estimator& estimator, const std::vector<ReplaySink*>& sinks) : estimator_(estimator) {
        for (ReplaySink* sink : sinks) {
            if (sink->asks_scenes()) sinks_.push_back(sink);
        }
    }
    FeedResult operator()(const Sample& sample) {
        const FeedResult result = estimator_.feed(sample);
        if (sinks_.empty() || estimator_.alarms_judged_us() == judged_us_) return result;
        judged_us_ = estimator_.alarms_judged_us();
        const AlarmScene scene = estimator_.alarm_scene();
        for (ReplaySink* sink : sinks_) sink->on_scene(scene);
        return result;
    }

  private:
    Estimator& estimator_;
    std::vector<ReplaySink*> sinks_;
    TimeUs judged_us_ = 0;
};

void run(MachineLog& log, const Machine& machine, const std::vector<ReplaySink*>& sinks,
         const ReadProgress& progress, MachineResult& result) {
    Estimator estimator(machine.parameters);
    WatchedFeed watched(estimator, sinks);
    const SampleTaker take = [&watched](const Sample& sample) { return watched(sample); };
    TrayFeed trays(machine, result.problems);
    BeliefTrack beliefs;
    LogRow row;
    Estimate estimate;
    const auto asks_all = [&row](const ReplaySink* sink) { return sink->asks_all(row); };
    std::uint32_t loads = 0;
    std::uint32_t revision = 0;
    std::uint32_t pause_news = 0;
    std::uint64_t tell_at = kRowsPerProgress;
    bool first = true;
    while (log.next(row)) {
        if (machine.until_us != 0 && row.time_us >= machine.until_us) break;
        if (first && machine.carried) estimator.begin_with(*machine.carried, row.time_us);
        first = false;
        log.feed(row, take);
        trays.feed(row.time_us, take);
        if (progress && log.rows_read() >= tell_at) {
            tell_at = log.rows_read() + kRowsPerProgress;
            progress(log.position());
        }
        estimator.read_weighed(estimate);
        if (beliefs.due(estimate.time_us) || std::any_of(sinks.begin(), sinks.end(), asks_all))
            estimate = estimator.read();
        if (!estimate.started) continue;
        if (result.first_us == 0) result.first_us = row.time_us;
        beliefs.note(estimator.filter(), estimate);
        const Load& load = estimator.last_load();
        if (load.number != loads || load.revision != revision) {
            loads = load.number;
            revision = load.revision;
            for (ReplaySink* sink : sinks) sink->on_load(load);
        }
        if (estimator.pause_news() != pause_news) {
            pause_news = estimator.pause_news();
            keep_newest(result.pauses, estimator.last_pause());
        }
        for (ReplaySink* sink : sinks) sink->on_row(row, estimate);
    }
    for (ReplaySink* sink : sinks) sink->finish();
    if (result.first_us != 0)
        trays.finish(estimator.read().time_us, [&](const Sample& sample) { return estimator.feed(sample); });
    result.last = estimator.read();
    result.beliefs = beliefs.take_steps();
    result.lost = estimator.loss_so_far();
    result.loss_memory = estimator.loss_memory();
    result.loss_book = estimator.loss_book();
    result.curve = estimator.filter().curve();
    result.feed_per_pea = estimator.filter().feed_per_pea();
    result.drum_dead_time_s = static_cast<double>(estimator.filter().dead_time_s());
    result.drum_lag_s = static_cast<double>(estimator.filter().lag_s());
    result.last_us = result.last.time_us;
    result.rows_read = log.rows_read();
    result.rows_bad = log.rows_bad();
    if (progress) progress(log.position());
}

// Says what a person would find strange in the result, so that a wrong total is not taken for a right one.
void check_sense(const Machine& machine, bool has_speed, MachineResult& result) {
    const std::string file = machine.log.string();
    const auto harvested_kg = static_cast<double>(result.last.harvested_kg);
    const auto area_m2 = static_cast<double>(result.last.area_m2);
    double ledger_kg = static_cast<double>(result.last.load_kg);
    for (const Load& load : result.loads) ledger_kg += static_cast<double>(load.net_kg);
    // A log that ends while peas pour out has that load neither in its ledger nor in the hopper.
    const bool pouring = result.last.state == WorkState::tipping;
    if (!pouring &&
        std::abs(ledger_kg - harvested_kg) > kStrangeShare * std::abs(harvested_kg) + kStrangeKg) {
        result.problems.add({file, 0,
                             "harvested comes out at " + fixed(harvested_kg, 0) +
                                 " kg, but loads and hopper hold " + fixed(ledger_kg, 0) +
                                 " kg: the weight jumped or went missing",
                             "trust the loads more than the total; check the weigh cells"});
    }
    if (area_m2 > kStrangeAreaM2 && harvested_kg < kStrangeYieldKgpm2 * area_m2) {
        result.problems.add({file, 0,
                             "the weight hardly rises although " + fixed(area_m2 / 1e4, 2) +
                                 " ha were driven with the reel on",
                             "check that the weight is in kg and the cells are alive"});
    }
    const double harvesting_s = result.seconds(WorkState::harvesting);
    const double mean_mps =
        harvesting_s > 0.0 ? area_m2 / static_cast<double>(machine.parameters.width_m) / harvesting_s : 0.0;
    if (mean_mps > kStrangeSpeedMps) {
        result.problems.add({file, 0, "harvests at " + fixed(kKmphPerMps * mean_mps, 1) + " km/h on average",
                             "check that speed_mps is in m/s, not km/h"});
    }
    if (!has_speed) {
        result.problems.add({file, 0, "has no speed_mps, so area and yield are not known and stand as 0",
                             "nothing else is lost; the load rate follows the weight alone", true});
    }
}

}  // namespace

double tonnes_per_hectare(double kg, double m2) {
    return m2 > 0.0 ? kg / m2 * 10.0 : 0.0;
}

double MachineResult::yield_tpha() const {
    return tonnes_per_hectare(static_cast<double>(last.harvested_kg), static_cast<double>(last.area_m2));
}

double MachineResult::load_rate_tph() const {
    const double hours = seconds(WorkState::harvesting) / 3600.0;
    return hours > 0.0 ? static_cast<double>(last.harvested_kg) / 1000.0 / hours : 0.0;
}

MachineResult replay_machine(const Machine& machine, const std::vector<ReplaySink*>& extra_sinks,
                             const ReadProgress& progress) {
    MachineResult result;
    result.id = machine.id;
    result.parameters = machine.parameters;
    StateClock states;
    MinuteTrack minutes;
    WorkTrack work;
    AlarmLog alarms;
    SwathTrack swath;
    LoadList loads;
    StretchTrack stretches;
    HopperParcels parcels(machine.parameters);
    std::vector<ReplaySink*> sinks = {&states, &minutes, &work,      &alarms,
                                      &swath,  &loads,   &stretches, &parcels};
    sinks.insert(sinks.end(), extra_sinks.begin(), extra_sinks.end());

    bool has_speed = false;
    try {
        const auto log = open_log(machine.log, machine.bus, result.problems);
        run(*log, machine, sinks, progress, result);
        has_speed = log->has(Column::speed_mps);
    } catch (const RefusedInput& refused) {
        result.refusal = refused.what();
        return result;
    }
    if (!result.last.started) {
        result.refusal = to_text({machine.log.string(), 0, "holds no row with a time and a weight",
                                  "check that the log was recorded and copied whole"});
        return result;
    }
    result.usable = true;
    for (std::size_t i = 0; i < kWorkStates; ++i)
        result.seconds_by_state[i] = states.seconds(static_cast<WorkState>(i));
    result.seconds_without_data = states.seconds_without_data();
    result.alarms = alarms.events();
    result.swath = swath.pieces(result.drum_dead_time_s, result.drum_lag_s);
    result.minutes = minutes.minutes();
    result.loads = std::move(loads.loads);
    result.work = work.take_points();
    result.stretches = stretches.stretches();
    result.parcels = parcels.loads();
    check_sense(machine, has_speed, result);
    return result;
}

}  // namespace podrate::sim
