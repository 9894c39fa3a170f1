// Which of the settings to take.
#pragma once

#include "tune/tuning_figures.hpp"
#include "tune/tuning_options.hpp"

namespace podrate::sim {

// The alarms that a sweep moves, each setting ready to be summed. Keeps pointers into the table.
class TuningRows {
  public:
    TuningRows(const TuneTable& table, std::vector<std::size_t> alarms);

    [[nodiscard]] const TuneTable& table() const { return *table_; }
    [[nodiscard]] const std::vector<std::size_t>& alarms() const { return alarms_; }
    [[nodiscard]] std::size_t settings() const { return table_->settings.size(); }
    // From the least to the greatest value of a parameter, by its place in the table.
    [[nodiscard]] double swept_over(std::size_t parameter) const { return swept_over_[parameter]; }
    // `i`: place in alarms().
    [[nodiscard]] const AlarmRow& row(std::size_t i, std::size_t setting) const { return rows_[i][setting]; }

  private:
    const TuneTable* table_;
    std::vector<std::size_t> alarms_;
    std::vector<std::vector<AlarmRow>> rows_;
    std::vector<double> swept_over_;
};

// The same value, or both NaN: a parameter in which machines differ, as each has it.
bool same_value(double a, double b);

// How far figures stay short of what is asked: ln of how many times the missed share is over what is allowed
// plus ln of how many times the false alarms are. 0 where all is met, infinite where nothing is told; a
// figure that nobody knows asks for nothing. At least half a percent may be missed, and one false alarm in
// 1000 h.
double shortfall_of(const AlarmFigures& figures, const TuningOptions& options);

struct ChosenSetting {
    std::size_t setting = 0;
    double shortfall = 0.0;  // summed over the alarms; 0: all that is asked is met
};

// The same of what the figures' ranges leave open: the lower end of Wilson's of the share told, the upper end
// of Garwood's of the false alarms. A setting taken for its figures alone owes some of them to luck.
double unsure_shortfall_of(const AlarmSum& sum, const TuningOptions& options);

// The setting with the least shortfall; among those the least that is unsure; then the least median delay
// summed over the alarms, then the least delay of nine in ten, the fewest false alarms, the most told, the
// fewest values changed, the nearest to the present ones, the first. Where every value of a grid moves one
// alarm only, this is the best for each alarm.
ChosenSetting choose_setting(const TuningRows& rows, const TuningOptions& options, PlaceTimes times);

// Which figures no other beats in all of missed share, false alarms per hour and median delay at once (one
// at least as good in all and better in one). One that told nothing is as late as can be.
std::vector<bool> unbeaten(const std::vector<AlarmFigures>& figures);

}  // namespace podrate::sim
