// What a sweep's conclusion says in plain words.
#pragma once

#include <string>
#include <vector>

#include "tune/tuning_choice.hpp"

namespace podrate::sim {

// "12 s", "0.12": with its unit as in the parameter table; NaN is said as "as each machine has it".
std::string swept_value_text(const std::string& parameter, double value);

// "loss_high_share 0.12, loss_high_on_s 12 s".
std::string setting_text(const TuneTable& table, std::size_t setting);

// "98 % (95 to 99)", "0.08 (0.03 to 0.16)", "9 s (7 to 12)"; "not known" where there is none.
std::string share_text(double share, const Range& range);
std::string rate_text(double per_h, const Range& range);
std::string delay_text(double delay_s, const Range& range);

// "once in 12 h", "4 an hour", "never".
std::string how_often_text(double per_h);

// "1 day", "3 days".
std::string count_text(double count, const char* one, const char* more);

// The alarm's words between quotes.
std::string alarm_text(const AlarmConclusion& alarm);

// Whether anybody knows what it had to tell; if not, only its burden is shown.
bool is_known(const AlarmConclusion& alarm);

// What to set, in one sentence.
std::string what_to_set(const TuneTable& table, const TuningChoice& choice);

// The whole in a few sentences: what to set, what it brings and costs, how sure.
std::string summary_text(const TuneTable& table, const TuningChoice& choice);

// Of one alarm: what the setting brings and its price, beside what is.
std::string brings_text(const TuningChoice& choice, const AlarmConclusion& alarm);

// For the parameter set: what to set and what it brings.
std::string recommendation_note(const TuneTable& table, const TuningChoice& choice);

const char* name_of(Gain gain);  // "more told", "fewer false alarms", "told sooner"
std::string gain_text(Gain gain, double amount);

}  // namespace podrate::sim
