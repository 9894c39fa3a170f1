// Tallies of settings on a machine's day: from work kept, from the day's trace, or by a replay.
#pragma once

#include <future>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "replay/machine_replay.hpp"
#include "tune/kept_work.hpp"
#include "tune/sweep.hpp"
#include "tune/tallying.hpp"
#include "tune/tune_day.hpp"
#include "tune/tuned_part.hpp"

namespace podrate::sim {

// A setting to be tried; `own`: each machine's own parameters instead.
struct TuneTrial {
    bool own = false;
    TuneSetting setting;
};

struct TunePlace {
    std::size_t day = 0;
    std::size_t machine = 0;
};

// May be asked by several threads at once.
class TuneWorker {
  public:
    // At most so many traces are held at once.
    TuneWorker(std::vector<TuneDay> days, std::vector<Swept> sweep, KeptWork& kept, std::size_t most_traces);

    // All machines of all days, in their order.
    [[nodiscard]] const std::vector<TunePlace>& places() const { return places_; }
    [[nodiscard]] const std::vector<TuneDay>& days() const { return days_; }
    [[nodiscard]] const Machine& machine(std::size_t place) const;
    [[nodiscard]] const std::vector<Swept>& sweep() const { return sweep_; }

    // Where a place's truth comes from.
    [[nodiscard]] KnownFrom known_from(std::size_t place) const;

    // The same text for trials that one replay serves.
    [[nodiscard]] std::string replay_key(const TuneTrial& trial) const;

    // Of trials with one replay_key().
    TunedPart work(std::size_t place, const std::vector<TuneTrial>& trials);

  private:
    struct Traced {
        bool usable = false;
        std::string refusal;
        std::uint64_t faults = 0;
        AlarmTrace trace;
        TraceTimes times;
    };
    using Shared = std::shared_ptr<const Traced>;

    [[nodiscard]] Parameters parameters_of(std::size_t place, const TuneTrial& trial) const;
    Shared traced(std::size_t place, const TuneTrial& trial);
    Shared trace_anew(std::size_t place, const TuneTrial& trial);
    const MachineTruth& truth_of(std::size_t place);
    [[nodiscard]] MachineTruth find_truth(std::size_t place) const;

    std::vector<TuneDay> days_;
    std::vector<Swept> sweep_;
    KeptWork& kept_;
    std::size_t most_traces_;
    std::vector<TunePlace> places_;

    struct Held {
        std::string key;
        std::shared_future<Shared> trace;
    };
    std::mutex traces_mutex_;
    std::list<Held> traces_;  // the one asked for last stands first

    std::mutex truths_mutex_;
    std::map<std::size_t, std::shared_future<MachineTruth>> truths_;
};

}  // namespace podrate::sim
