#include "tune/tune.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>

#include "season/side_by_side.hpp"
#include "tune/search.hpp"
#include "tune/tune_worker.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kSettingsInPiece = 50;
constexpr std::size_t kTracesOfGrid = 8;     // as the pieces come, one after the other is done with
constexpr std::size_t kTracesOfSearch = 64;  // some 17 MB for each 24 h

// Settings that one replay serves, on one machine's day.
struct TunePiece {
    std::size_t place = 0;
    std::vector<std::size_t> trials;
};

// Pieces in a fixed order: by replay, by place, by setting.
std::vector<TunePiece> pieces_of(const TuneWorker& worker, const std::vector<TuneTrial>& trials) {
    std::vector<std::string> order;
    std::map<std::string, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < trials.size(); ++i) {
        const std::string key = worker.replay_key(trials[i]);
        if (groups.count(key) == 0) order.push_back(key);
        groups[key].push_back(i);
    }
    std::vector<TunePiece> pieces;
    for (const std::string& key : order) {
        const std::vector<std::size_t>& group = groups[key];
        for (std::size_t place = 0; place < worker.places().size(); ++place) {
            for (std::size_t i = 0; i < group.size(); ++i) {
                if (i % kSettingsInPiece == 0) pieces.push_back({place, {}});
                pieces.back().trials.push_back(group[i]);
            }
        }
    }
    return pieces;
}

// Tallies by trial and place, and what became of each place's log.
class TuneBooks {
  public:
    explicit TuneBooks(std::size_t places)
        : tallies_(places), usable_(places, false), refusals_(places), outside_(places), faults_(places, 0) {}

    void add(std::size_t place, const std::vector<std::size_t>& trials, const TunedPart& part) {
        const std::lock_guard<std::mutex> lock(mutex_);
        usable_[place] = part.usable;
        refusals_[place] = part.refusal;
        outside_[place] = part.outside;
        faults_[place] = part.faults;
        if (!part.usable) return;
        std::vector<MachineDayTally>& of_place = tallies_[place];
        for (std::size_t i = 0; i < trials.size(); ++i) {
            if (of_place.size() <= trials[i]) of_place.resize(trials[i] + 1);
            of_place[trials[i]] = part.tallies[i];
        }
    }

    [[nodiscard]] std::vector<MachineDayTally> of_trial(std::size_t trial) const {
        std::vector<MachineDayTally> row;
        for (std::size_t place = 0; place < tallies_.size(); ++place) {
            if (usable_[place]) row.push_back(tallies_[place][trial]);
        }
        return row;
    }

    void tell_places(const TuneWorker& worker, Tuning& tuning) const {
        for (std::size_t place = 0; place < usable_.size(); ++place) {
            const TuneDay& day = worker.days()[worker.places()[place].day];
            if (!usable_[place]) {
                tuning.notes.push_back(refusals_[place]);
                continue;
            }
            if (tuning.own_mark.empty()) {
                tuning.own = worker.machine(place).parameters;
                tuning.own_mark = mark_of(tuning.own);
            }
            tuning.own_of.push_back(worker.machine(place).parameters);
            tuning.table.on.push_back({day.day.label, worker.machine(place).id, worker.known_from(place)});
            if (!outside_[place].empty()) tuning.notes.push_back(outside_[place]);
            if (faults_[place] > 0)
                tuning.notes.push_back(worker.machine(place).log.string() + ": " +
                                       std::to_string(faults_[place]) +
                                       " rows or values left out; `podrate replay` names them");
        }
    }

  private:
    std::mutex mutex_;
    std::vector<std::vector<MachineDayTally>> tallies_;
    std::vector<bool> usable_;
    std::vector<std::string> refusals_;
    std::vector<std::string> outside_;
    std::vector<std::uint64_t> faults_;
};

// The machines' own values, where they agree.
TuneTrial own_trial(const TuneWorker& worker) {
    TuneTrial trial;
    trial.own = true;
    for (const Swept& swept : worker.sweep()) {
        const auto value_of = [&](std::size_t place) {
            return worker.machine(place).parameters.*swept.parameter->member;
        };
        bool agree = true;
        for (std::size_t place = 1; place < worker.places().size(); ++place)
            agree = agree && value_of(place) == value_of(0);
        trial.setting.values.push_back(agree ? decimal_of(value_of(0))
                                             : std::numeric_limits<double>::quiet_NaN());
    }
    return trial;
}

void sweep_grid(const TuneOptions& options, TuneWorker& worker, TuneBooks& books,
                std::vector<TuneTrial>& trials) {
    for (TuneSetting& setting : grid_of(options.sweep)) trials.push_back({false, std::move(setting)});
    const std::vector<TunePiece> pieces = pieces_of(worker, trials);
    std::mutex progress_mutex;
    std::size_t done = 0;
    side_by_side(pieces.size(), options.at_once, [&](std::size_t i) {
        std::vector<TuneTrial> tried;
        for (const std::size_t trial : pieces[i].trials) tried.push_back(trials[trial]);
        books.add(pieces[i].place, pieces[i].trials, worker.work(pieces[i].place, tried));
        const std::lock_guard<std::mutex> lock(progress_mutex);
        ++done;
        if (options.progress)
            options.progress(static_cast<double>(done) / static_cast<double>(pieces.size()));
    });
}

void search_best(const TuneOptions& options, const std::vector<AlarmId>& alarms, TuneWorker& worker,
                 TuneBooks& books, std::vector<TuneTrial>& trials) {
    const auto try_newest = [&] {
        const std::size_t trial = trials.size() - 1;
        side_by_side(worker.places().size(), options.at_once, [&](std::size_t place) {
            books.add(place, {trial}, worker.work(place, {trials[trial]}));
        });
        if (options.progress)
            options.progress(std::min(1.0, static_cast<double>(trial) / options.most_settings));
        return objective_of(books.of_trial(trial), alarms, options.weights);
    };
    try_newest();  // as they were
    std::vector<SearchRange> ranges;
    for (const Swept& swept : options.sweep) {
        const auto [low, high] = std::minmax_element(swept.values.begin(), swept.values.end());
        ranges.push_back({*low, *high, std::pow(10.0, -swept.parameter->decimals)});
    }
    search_least(ranges, options.most_settings, [&](const std::vector<double>& values) {
        trials.push_back({false, {values}});
        for (double& value : trials.back().setting.values) value = decimal_of(static_cast<Real>(value));
        return try_newest();
    });
}

}  // namespace

Tuning tune(const TuneOptions& options) {
    Tuning tuning;
    std::vector<TuneDay> days = read_tune_days(options.folders, options.base, tuning.notes);
    for (const TuneDay& day : days) tuning.problems.append(day.day.problems);
    KeptWork kept(options.out / "work", options.anew);
    TuneWorker worker(std::move(days), options.sweep, kept, options.search ? kTracesOfSearch : kTracesOfGrid);
    tuning.alarms = alarms_of_sweep(options.sweep);
    TuneBooks books(worker.places().size());
    std::vector<TuneTrial> trials;
    if (!worker.places().empty()) {
        trials.push_back(own_trial(worker));
        if (options.search) {
            search_best(options, tuning.alarms, worker, books, trials);
        } else {
            sweep_grid(options, worker, books, trials);
        }
    }
    books.tell_places(worker, tuning);
    if (tuning.table.on.empty()) {
        throw RefusedInput({"podrate tune", 0, "no day can be used",
                            tuning.notes.empty() ? "give a day's folder" : tuning.notes.front()});
    }
    for (const Swept& swept : options.sweep) tuning.table.parameters.emplace_back(swept.parameter->name);
    for (std::size_t trial = 0; trial < trials.size(); ++trial) {
        tuning.table.settings.push_back(trials[trial].setting);
        tuning.table.tallies.push_back(books.of_trial(trial));
    }
    kept.drop_others();
    tuning.taken_over = kept.taken();
    return tuning;
}

}  // namespace podrate::sim
