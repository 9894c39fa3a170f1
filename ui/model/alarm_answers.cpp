#include "model/alarm_answers.hpp"

#include <algorithm>

#include "model/clock_text.hpp"

namespace podrate::ui {
namespace {

constexpr int kPutOffMin = 30;
constexpr int kPutOffHighMin = 10;
constexpr TimeUs kAMinuteUs = 60 * kSecondUs;

std::string noted_words(TimeUs noted_us, TimeUs now_us, const Speech& say) {
    const TimeUs minutes = std::max(TimeUs(0), now_us - noted_us) / kAMinuteUs;
    return minutes == 0 ? say(Text::noted_now) : say(Text::noted_ago, {std::to_string(minutes)});
}

}  // namespace

int put_off_min(AlarmPriority priority) {
    return priority == AlarmPriority::high ? kPutOffHighMin : kPutOffMin;
}

AnswerWords answer_words(const AlarmAnswers& answers, const AlarmLine& line, TimeUs now_us,
                         const std::string& time_zone, const Speech& say) {
    AnswerWords words;
    int put_off = 0;
    TimeUs first_us = 0;
    for (const TimeUs until_us : answers.put_off_until_us) {
        if (until_us == 0) continue;
        ++put_off;
        if (first_us == 0 || until_us < first_us) first_us = until_us;
    }
    if (put_off > 0) {
        words.shelf = say(put_off == 1 ? Text::shelf_one : Text::shelf_more,
                          {std::to_string(put_off), clock_text(first_us, time_zone, false)});
        words.bring_back = say(Text::alarm_bring_back);
    }
    if (!line.shown) return words;
    words.put_off = say(Text::alarm_put_off, {std::to_string(put_off_min(line.priority))});
    const TimeUs noted_us = answers.noted_us[static_cast<std::size_t>(line.alarm)];
    if (noted_us == 0) {
        words.note = say(Text::alarm_note);
    } else {
        words.noted = noted_words(noted_us, now_us, say);
    }
    return words;
}

}  // namespace podrate::ui
