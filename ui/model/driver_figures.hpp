// What the driver's view shows at one moment: plain words and numbers, no drawing.
#pragma once

#include <string>
#include <vector>

#include "model/alarm_answers.hpp"
#include "model/alarm_line.hpp"
#include "model/loss_figures.hpp"
#include "model/recording.hpp"
#include "model/speed_figures.hpp"
#include "podrate/work/work_state.hpp"

namespace podrate::ui {

struct LoadLine {
    std::string number;  // "7"
    std::string clock;   // "15:42"
    std::string mass;    // "1.96 t"
    std::string doubt;   // "+-0.01"
};

// Load rate over the last minutes, with its 90 % interval, t/h.
struct RatePoint {
    double minutes_ago = 0.0;
    double rate_tph = 0.0;
    double low_tph = 0.0;
    double high_tph = 0.0;
};

struct DriverFigures {
    Speech say;          // what it is told in
    bool known = false;  // false: no data yet at this moment
    std::string machine;
    std::string day;
    std::string clock;  // "15:42:10"
    WorkState state = WorkState::stopped;
    std::string state_word;

    std::string rate;           // "5.4"
    std::string rate_interval;  // "4.9 to 5.9"
    std::vector<RatePoint> recent;
    double recent_minutes = 0.0;  // how far back `recent` reaches at most
    double rate_scale_tph = 0.0;  // upper end of its axis
    std::string rate_marks[3];    // what stands at its lower end, middle and upper end

    double level_share = 0.0;   // 0 to 1
    std::string level_percent;  // "72"
    std::string in_hopper;      // "1.44 t of 2.0 t"
    std::string full_in;        // "full in 7 min"
    std::string full_after;     // "350 m"

    SpeedFigures speed;
    LossFigures loss;

    std::string yield_here;      // empty before anything was cut
    std::string yield_interval;  // "4.4 to 5.2"
    std::string area_cut;        // "2.50 ha", empty before anything was cut
    std::string total_since;     // "Since 15:00"
    std::string total;
    std::string total_doubt;      // "+-0.04 t", 9 times in 10
    std::vector<LoadLine> loads;  // newest first

    Telling no_data;  // why nothing is known, or empty
    AlarmLine alarm;
    AnswerWords answers;  // of a live machine alone: a record cannot be answered
    std::string caution;  // when a tip is near, or empty
};

DriverFigures driver_figures(const Recording& recording, std::size_t machine, TimeUs time_us,
                             const Speech& say);

}  // namespace podrate::ui
