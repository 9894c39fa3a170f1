// What an alarm tells, and how often for nothing, as one of its parameters runs over its range.
#pragma once

#include <atomic>
#include <memory>
#include <vector>

#include "tune/tallying.hpp"
#include "tune/tuning_figures.hpp"

namespace podrate::ui {

// A machine's day to judge its alarms on, with all other parameters as they are.
struct CurvePlace {
    std::size_t machine = 0;
    Parameters parameters;
    std::shared_ptr<const sim::AlarmTrace> trace;
    std::shared_ptr<const sim::TraceTimes> times;
};

struct CurveQuestion {
    AlarmId alarm = AlarmId::loss_high;
    std::size_t parameter = 0;  // place in the table; it sets alarms alone
    std::vector<CurvePlace> places;
    std::shared_ptr<const std::vector<sim::MachineTruth>> truths;  // by machine
};

// Whether one curve answers both: what runs over its range counts for nothing.
bool same_question(const CurveQuestion& a, const CurveQuestion& b);

struct AlarmCurve {
    CurveQuestion question;
    std::vector<double> values;              // rising
    std::vector<sim::AlarmFigures> figures;  // by value, over all places
};

// nullptr where it is called off.
std::shared_ptr<const AlarmCurve> reckon_curve(const CurveQuestion& question,
                                               const std::atomic<bool>& cancel);

}  // namespace podrate::ui
