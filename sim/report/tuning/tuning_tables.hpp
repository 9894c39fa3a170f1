// The tables of a sweep's report.
#pragma once

#include <string>

#include "tune/tuning_choice.hpp"

namespace podrate::sim {

// Each setting of one alarm with its figures and ranges, those alike in all of them once; what counts first,
// at most kSettingsListed.
inline constexpr std::size_t kSettingsListed = 400;
std::string settings_table_html(const TuneTable& table, const TuningChoice& choice,
                                const AlarmConclusion& alarm);

// What each parameter moves: a step down, a step up, and over the whole grid.
std::string effects_table_html(const TuneTable& table, const AlarmConclusion& alarm, std::size_t chosen);

// Each day or machine left out, then the gains together.
std::string folds_table_html(const TuneTable& table, const TuningChoice& choice, const CrossCheck& check);
std::string gains_table_html(const TuningChoice& choice, const CrossCheck& check);

// Alarms that no setting moves.
std::string still_table_html(const TuningChoice& choice);

}  // namespace podrate::sim
