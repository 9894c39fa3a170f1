#include "replay/machine_replay.hpp"

#include <utility>

#include "log/log_reader.hpp"
#include "log/sample_feed.hpp"
#include "podrate/estimator.hpp"

namespace podrate::sim {
namespace {

constexpr std::uint64_t kRowsPerProgress = 20000;

class LoadList : public ReplaySink {
  public:
    void on_row(const LogRow&, const Estimate&) override {}
    void on_load(const Load& load) override { loads.push_back(load); }
    std::vector<Load> loads;
};

void run(LogReader& reader, const Machine& machine, const std::vector<ReplaySink*>& sinks,
         const ReadProgress& progress, MachineResult& result) {
    Estimator estimator(machine.parameters);
    SampleFeed feed(machine.log.string(), reader, result.problems);
    LogRow row;
    std::uint32_t loads = 0;
    while (reader.next(row)) {
        feed.feed(row, estimator);
        if (reader.rows_read() % kRowsPerProgress == 0 && progress) progress(reader.position());
        const Estimate estimate = estimator.read();
        if (!estimate.started) continue;
        if (result.first_us == 0) result.first_us = row.time_us;
        if (estimator.load_count() > loads) {
            loads = estimator.load_count();
            for (ReplaySink* sink : sinks) sink->on_load(estimator.last_load());
        }
        for (ReplaySink* sink : sinks) sink->on_row(row, estimate);
    }
    for (ReplaySink* sink : sinks) sink->finish();
    result.last = estimator.read();
    result.last_us = result.last.time_us;
    result.rows_read = reader.rows_read();
    result.rows_bad = reader.rows_bad();
    if (progress) progress(reader.position());
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

MachineResult replay_machine(const Machine& machine, const std::vector<Field>& fields,
                             const std::vector<ReplaySink*>& extra_sinks, const ReadProgress& progress) {
    MachineResult result;
    result.id = machine.id;
    result.parameters = machine.parameters;
    StateClock states;
    LossTally loss;
    MinuteTrack minutes;
    FieldTally by_field(fields);
    FaultTally faults;
    LoadList loads;
    std::vector<ReplaySink*> sinks = {&states, &loss, &minutes, &by_field, &faults, &loads};
    sinks.insert(sinks.end(), extra_sinks.begin(), extra_sinks.end());

    try {
        LogReader reader(machine.log, result.problems);
        run(reader, machine, sinks, progress, result);
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
    result.loss_mean = loss.mean_share();
    result.loss_low = loss.low_share();
    result.loss_high = loss.high_share();
    result.fault_count = faults.count();
    result.minutes = minutes.minutes();
    result.loads = std::move(loads.loads);
    for (std::size_t i = 0; i < fields.size(); ++i)
        result.fields.push_back({by_field.harvested_kg(i), by_field.area_m2(i)});
    return result;
}

}  // namespace podrate::sim
