// What each setting of parameters would have told on recorded days.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "log/problem.hpp"
#include "parameters/parameter_set.hpp"
#include "tune/objective.hpp"
#include "tune/sweep.hpp"
#include "tune/tally.hpp"
#include "tune/truth.hpp"

namespace podrate::sim {

struct TuneOptions {
    std::vector<std::string> folders;  // of days
    std::filesystem::path out;         // work is kept below it
    std::vector<Swept> sweep;
    std::optional<ParameterSet> base;  // laid over each machine's own parameters
    bool search = false;               // true: between the ends of each range, instead of every combination
    int most_settings = 200;           // that a search tries
    TuneWeights weights;               // of a search
    bool anew = false;                 // true: no work of an earlier run is taken
    unsigned at_once = 0;              // threads; 0: as many as there are processors
    std::function<void(double)> progress;  // share of the work, 0 to 1; called one at a time
};

struct Tuning {
    TuneTable table;
    std::vector<AlarmId> alarms;     // that the sweep is about
    std::vector<std::string> notes;  // what could not be used, and why
    Problems problems;               // of the days' small files
    std::size_t taken_over = 0;      // pieces of work that an earlier run had done
    Parameters own;                  // of the first machine that could be used
    std::string own_mark;            // of those, see mark_of()
    std::vector<Parameters> own_of;  // by place in table.on
};

// The result does not depend on how many run at once, nor on what an earlier run was stopped at. Of a grid
// the settings stand in its order, of a search as they were tried; the parameters as they were stand first,
// with NaN where machines differ. Throws RefusedInput where no day can be used.
Tuning tune(const TuneOptions& options);

}  // namespace podrate::sim
