// Figures of one alarm, and of all that a driver was shown, summed over machines' days.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "podrate/parameters.hpp"
#include "tune/tally.hpp"

namespace podrate::sim {

enum class AlarmFigure {
    detection,       // share of the episodes that were told
    delay_median_s,  // of those told
    delay_90_s,      // nine in ten came sooner
    false_per_h,     // of the time in which the alarm could have come
    alarms_per_h,    // ... all of them
    chatter_share,   // of the alarms
    in_alarm_share,  // of that time
    idle_share,      // ... without a reason, of the time of which that is known
};
inline constexpr std::size_t kAlarmFigures = 8;
using AlarmFigures = std::array<double, kAlarmFigures>;  // NaN where there is nothing to tell it from

enum class PanelFigure {
    alarms_per_ten_min,  // of work
    over_one_share,      // of the stretches of ten minutes: with more than one alarm, ...
    over_two_share,
    flood_share,  // ... more than ten
    low_share,    // of the alarms: priority low, medium, high
    medium_share,
    high_share,
};
inline constexpr std::size_t kPanelFigures = 7;
using PanelFigures = std::array<double, kPanelFigures>;

inline double of(const AlarmFigures& figures, AlarmFigure which) {
    return figures[static_cast<std::size_t>(which)];
}
inline double of(const PanelFigures& figures, PanelFigure which) {
    return figures[static_cast<std::size_t>(which)];
}

// How many times each place of TuneTable::on counts: 1 for all, 0 for what is left out, more where a
// bootstrap drew it more often.
using PlaceTimes = std::span<const int>;

// Sums of one alarm over places.
struct AlarmSum {
    double episodes = 0.0;
    double told = 0.0;
    double alarms = 0.0;
    double false_alarms = 0.0;
    double chattered = 0.0;
    double in_alarm_s = 0.0;
    double idle_s = 0.0;
    double judged_h = 0.0;
    double known_h = 0.0;

    void add(const AlarmTally& tally, double times);
    [[nodiscard]] double missed() const { return episodes - told; }
};

// One alarm of one setting, ready to be summed again and again: the delays in order with their places.
class AlarmRow {
  public:
    // `setting_of` gives the setting that counts at each place.
    AlarmRow(const TuneTable& table, const std::vector<std::size_t>& setting_of, std::size_t alarm);
    AlarmRow(const TuneTable& table, std::size_t setting, std::size_t alarm);

    [[nodiscard]] AlarmSum sum(PlaceTimes times) const;
    [[nodiscard]] AlarmFigures figures(PlaceTimes times) const;

  private:
    // The delay that share `p` of those told do not exceed; the mean of two where it falls between them
    // (type 2 of Hyndman & Fan, The American Statistician 50(4): 361-365, 1996).
    [[nodiscard]] double delay_s(double p, PlaceTimes times) const;

    struct Delay {
        float s;
        std::size_t place;
    };
    std::vector<const AlarmTally*> tallies_;  // by place
    std::vector<Delay> delays_;               // the least first
};

// What a driver was shown with one setting, ready to be summed again and again.
class PanelRow {
  public:
    // `parameters`: as they were; where the sweep names priorities those of the setting count.
    PanelRow(const TuneTable& table, std::size_t setting, const Parameters& parameters);

    [[nodiscard]] PanelFigures figures(PlaceTimes times) const;

  private:
    struct Day {
        PanelTally panel;
        std::array<double, 3> by_priority{};  // alarms: low, medium, high
    };
    std::vector<Day> days_;  // by place
};

// The most alarms in ten minutes that any machine's day had.
int most_in_ten(const TuneTable& table, std::size_t setting);

// `parameters` with the values of a setting. NaN, where machines differ, leaves a parameter as it is, and a
// name that the parameter table lacks is passed over.
Parameters with_setting(const TuneTable& table, std::size_t setting, Parameters parameters);

// Whether two settings say the same of one alarm at each place.
bool same_tallies(const TuneTable& table, std::size_t a, std::size_t b, std::size_t alarm);

// Alarms of which some setting says something else than the parameters as they were.
std::vector<std::size_t> alarms_moved(const TuneTable& table);

}  // namespace podrate::sim
