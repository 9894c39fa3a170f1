#include "tune/tune_worker.hpp"

#include <algorithm>
#include <utility>

#include "tune/marked_episodes.hpp"
#include "tune/tray_episodes.hpp"
#include "tune/true_episodes.hpp"

namespace podrate::sim {

TuneWorker::TuneWorker(std::vector<TuneDay> days, std::vector<Swept> sweep, KeptWork& kept,
                       std::size_t most_traces)
    : days_(std::move(days)), sweep_(std::move(sweep)), kept_(kept), most_traces_(most_traces) {
    for (std::size_t d = 0; d < days_.size(); ++d) {
        for (std::size_t m = 0; m < days_[d].day.machines.size(); ++m) places_.push_back({d, m});
    }
}

const Machine& TuneWorker::machine(std::size_t place) const {
    return days_[places_[place].day].day.machines[places_[place].machine];
}

KnownFrom TuneWorker::known_from(std::size_t place) const {
    const TuneDay& day = days_[places_[place].day];
    KnownFrom from{};
    if (has_truth(day.input)) {
        from.fill(EpisodeSource::truth);
    } else if (!machine(place).trays.empty()) {
        from[static_cast<std::size_t>(AlarmId::loss_high)] = EpisodeSource::trays;
    }
    for (const Episode& episode : day.marked)
        from[static_cast<std::size_t>(episode.alarm)] = EpisodeSource::marked;
    return from;
}

std::string TuneWorker::replay_key(const TuneTrial& trial) const {
    const std::string key = estimator_key(sweep_, trial.setting);
    return trial.own && !key.empty() ? "own " : key;
}

Parameters TuneWorker::parameters_of(std::size_t place, const TuneTrial& trial) const {
    const Parameters& own = machine(place).parameters;
    return trial.own ? own : with_setting(own, sweep_, trial.setting);
}

TunedPart TuneWorker::work(std::size_t place, const std::vector<TuneTrial>& trials) {
    std::string key = days_[places_[place].day].stamp + machine(place).id + '\n';
    for (const Swept& swept : sweep_) key += std::string(swept.parameter->name) + ' ';
    for (const TuneTrial& trial : trials) {
        key += '\n';
        if (trial.own) key += "own";
        for (const double value : trial.setting.values) key += (trial.own ? "" : exact_text(value)) + ' ';
    }
    if (const std::optional<std::string> bytes = kept_.take(key)) {
        if (std::optional<TunedPart> part = part_of(*bytes)) return *part;
    }
    const Shared day = traced(place, trials.front());
    TunedPart part;
    part.usable = day->usable;
    part.refusal = day->refusal;
    part.faults = day->faults;
    if (day->usable) {
        const TuneDay& of_it = days_[places_[place].day];
        part.outside = marked_outside(of_it.marked, machine(place).id, of_it.input, day->times.first_unix_s,
                                      day->times.last_unix_s);
        const MachineTruth& truth = truth_of(place);
        for (const TuneTrial& trial : trials) {
            const std::vector<AlarmEvent> events = alarms_of(day->trace, parameters_of(place, trial));
            part.tallies.push_back(tally_of(events, day->times, truth));
        }
    }
    kept_.keep(key, bytes_of(part));
    return part;
}

TuneWorker::Shared TuneWorker::traced(std::size_t place, const TuneTrial& trial) {
    const std::string key = std::to_string(place) + ' ' + replay_key(trial);
    std::promise<Shared> promise;
    std::shared_future<Shared> found;
    {
        const std::lock_guard<std::mutex> lock(traces_mutex_);
        const auto it =
            std::find_if(traces_.begin(), traces_.end(), [&](const Held& held) { return held.key == key; });
        if (it != traces_.end()) {
            traces_.splice(traces_.begin(), traces_, it);
            found = it->trace;
        } else {
            traces_.push_front({key, promise.get_future().share()});
            if (traces_.size() > most_traces_) traces_.pop_back();
        }
    }
    if (found.valid()) return found.get();
    try {
        Shared made = trace_anew(place, trial);
        promise.set_value(made);
        return made;
    } catch (...) {
        promise.set_exception(std::current_exception());
        throw;
    }
}

TuneWorker::Shared TuneWorker::trace_anew(std::size_t place, const TuneTrial& trial) {
    Machine replayed = machine(place);
    replayed.parameters = parameters_of(place, trial);
    const auto made = std::make_shared<Traced>();
    const MachineResult result = replay_machine(replayed, {&made->trace}, nullptr);
    made->usable = result.usable;
    made->refusal = result.refusal;
    made->faults = result.problems.faults();
    if (made->usable) made->times = times_of(made->trace);
    return made;
}

const MachineTruth& TuneWorker::truth_of(std::size_t place) {
    std::promise<MachineTruth> promise;
    std::shared_future<MachineTruth> truth;
    bool mine = false;
    {
        const std::lock_guard<std::mutex> lock(truths_mutex_);
        mine = truths_.count(place) == 0;
        if (mine) truths_[place] = promise.get_future().share();
        truth = truths_[place];
    }
    if (mine) {
        try {
            promise.set_value(find_truth(place));
        } catch (...) {
            promise.set_exception(std::current_exception());
        }
    }
    return truth.get();
}

MachineTruth TuneWorker::find_truth(std::size_t place) const {
    const TuneDay& day = days_[places_[place].day];
    const Machine& of_it = machine(place);
    MachineTruth truth;
    AlarmTruth& loss = truth[static_cast<std::size_t>(AlarmId::loss_high)];
    if (has_truth(day.input)) {
        truth = true_episodes(day.input, of_it);
    } else if (!of_it.trays.empty()) {
        // What a tray says must not hang on a setting that is tried.
        loss = tray_episodes(of_it, replay_machine(of_it, {}, nullptr));
    }
    lay_marked_over(day.marked, of_it.id, truth);
    return truth;
}

}  // namespace podrate::sim
