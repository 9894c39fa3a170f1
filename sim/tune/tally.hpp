// What the alarms of one setting did on one machine's day, against what was to be told.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "tune/truth.hpp"

namespace podrate::sim {

// Of one alarm.
struct AlarmTally {
    int episodes = 0;             // to be told
    int told = 0;                 // of those
    std::vector<float> delays_s;  // of those told, in order of time; 0 where the alarm came just before
    int alarms = 0;
    int false_alarms = 0;  // that came without a reason
    int chattered = 0;     // at least the third within a minute
    double in_alarm_s = 0.0;
    double idle_s = 0.0;    // of that, without a reason
    double judged_h = 0.0;  // time in which it could have come
    double known_h = 0.0;   // of that, with it known what was to be told: false alarms belong to it
};

// Of all alarms that one driver was shown.
struct PanelTally {
    int alarms = 0;
    int tens = 0;           // stretches of ten minutes at work
    int tens_over_one = 0;  // of those with more than one alarm, ... more than two, ... more than ten
    int tens_over_two = 0;
    int tens_in_flood = 0;
    int most_in_ten = 0;
    double work_h = 0.0;
};

struct MachineDayTally {
    std::array<AlarmTally, kAlarms> alarms;
    PanelTally panel;
};

// Which day and machine a tally is of: what is left out together in cross-validation.
struct TunedOn {
    std::string day;  // label of its folder
    std::string machine;
    KnownFrom known_from{};
};

// One setting: a value for each parameter that is swept, in the sweep's order.
struct TuneSetting {
    std::vector<double> values;
};

// All that a sweep found. tallies[setting][place in `on`].
struct TuneTable {
    std::vector<std::string> parameters;  // swept, names as in the parameter table
    std::vector<TunedOn> on;
    std::vector<TuneSetting> settings;  // the first is the parameters as they were
    std::vector<std::vector<MachineDayTally>> tallies;
};

}  // namespace podrate::sim
