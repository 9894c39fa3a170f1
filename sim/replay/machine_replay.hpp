// One machine's day through the estimator.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "fields/work_track.hpp"
#include "hours/hopper_parcels.hpp"
#include "hours/stretch_track.hpp"
#include "podrate/loss/loss_book.hpp"
#include "podrate/work/pause_watch.hpp"
#include "replay/alarm_log.hpp"
#include "replay/belief_track.hpp"
#include "replay/sink.hpp"
#include "replay/swath_track.hpp"
#include "replay/tallies.hpp"

namespace podrate::sim {

struct MachineResult {
    std::string id;
    Parameters parameters;
    bool usable = false;  // false: the log was refused; `refusal` says why
    std::string refusal;
    std::uint64_t rows_read = 0;
    std::uint64_t rows_bad = 0;
    TimeUs first_us = 0;
    TimeUs last_us = 0;
    Estimate last;  // at the last row
    std::vector<Load> loads;
    std::array<double, kWorkStates> seconds_by_state{};
    double seconds_without_data = 0.0;
    LossSoFar lost;  // over the run, by what was known at its end
    LossMemory loss_memory;
    LossBook loss_book{Real(1), Real(1)};  // with curve and feed_per_pea: to tell the loss anew
    LossCurve<Real> curve;
    Real feed_per_pea = Real(0);
    double drum_dead_time_s = 0.0;  // as learnt
    double drum_lag_s = 0.0;
    std::vector<SwathPiece> swath;
    std::vector<AlarmEvent> alarms;
    std::vector<Pause> pauses;
    std::vector<Minute> minutes;
    std::vector<WorkPoint> work;
    std::vector<BeliefStep> beliefs;
    std::vector<Stretch> stretches;  // of first_us to last_us
    std::vector<LoadParcels> parcels;
    Problems problems;

    [[nodiscard]] double seconds(WorkState state) const {
        return seconds_by_state[static_cast<std::size_t>(state)];
    }
    [[nodiscard]] double yield_tpha() const;
    // Tonnes per hour of harvesting (not of turning, waiting or tipping).
    [[nodiscard]] double load_rate_tph() const;
};

// t/ha from kg and m2; 0 where there is no area.
double tonnes_per_hectare(double kg, double m2);

// Adds a load or a pause to a list, or puts it in the place of the one that it revises.
template <class Numbered>
void keep_newest(std::vector<Numbered>& list, const Numbered& one) {
    if (!list.empty() && list.back().number == one.number) list.pop_back();
    list.push_back(one);
}

// Called now and then with the bytes read so far.
using ReadProgress = std::function<void(std::uint64_t bytes)>;

// Reads the whole log once. Extra sinks see every row and load. A refused log gives a result with usable ==
// false.
MachineResult replay_machine(const Machine& machine, const std::vector<ReplaySink*>& extra_sinks,
                             const ReadProgress& progress);

}  // namespace podrate::sim
