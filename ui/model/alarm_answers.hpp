// What a driver may answer to an alarm, what was answered, and the words for both.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "model/alarm_line.hpp"

namespace podrate::ui {

enum class AlarmAnswer : std::uint8_t {
    note,        // acknowledged: seen, and it stays
    put_off,     // shelved for put_off_min()
    bring_back,  // all that are put off
};

struct AlarmOrder {
    AlarmAnswer answer = AlarmAnswer::note;
    AlarmId alarm = AlarmId::loss_high;  // of bring_back it says nothing
};

// Half an hour, of an alarm of the highest priority ten minutes: practice, no source. The core allows 12 h.
int put_off_min(AlarmPriority priority);

// As the estimator holds it, by AlarmId.
struct AlarmAnswers {
    std::uint16_t shown = 0;                         // as Estimate::alarms
    std::array<TimeUs, kAlarms> noted_us{};          // when; 0: not noted
    std::array<TimeUs, kAlarms> put_off_until_us{};  // 0: not put off
};

// Empty: not offered, or not so.
struct AnswerWords {
    std::string note;        // to be touched: "Noted"
    std::string put_off;     // "Put off 30 min"
    std::string bring_back;  // "Bring back"
    std::string noted;       // told: "Noted, 12 min ago"
    std::string shelf;       // "1 put off until 15:40"
};

// Of the alarm that the bottom line tells, and of all that are put off.
AnswerWords answer_words(const AlarmAnswers& answers, const AlarmLine& line, TimeUs now_us,
                         const std::string& time_zone, const Speech& say);

}  // namespace podrate::ui
