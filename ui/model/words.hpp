// Which words of the table are said of what: states, faults, alarms, advice.
#pragma once

#include <cstdint>
#include <string>

#include "podrate/advice/advice.hpp"
#include "podrate/alarm/alarm_panel.hpp"
#include "podrate/parameters.hpp"
#include "podrate/work/work_state.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// "Harvesting", "Waiting to tip", ...
Text word_for(WorkState state);

// What is the matter, and what to do or to check.
struct Telling {
    std::string what;
    std::string check;
};

// For the first fault that is up; both empty where none is.
Telling fault_words(std::uint8_t faults, const Speech& say);

// "Loss high", "Hopper full", ...
Text name_for(AlarmId alarm);

// What the words of an alarm speak of.
struct AlarmFacts {
    Parameters parameters;
    std::uint8_t faults = 0;
    double oldest_min = 0.0;  // since the oldest peas in the hopper were cut
};

Telling alarm_words(AlarmId alarm, const AlarmFacts& facts, const Speech& say);

// What the loss is judged from.
struct LossSources {
    int trays = 0;        // counted so far
    bool sensor = false;  // a loss sensor has been heard
    double learnt = 0.0;  // 0 nothing .. 1 all of the drum's level
};

// "no tray counted yet: mostly what is common", "3 trays counted, loss sensor".
std::string loss_source_words(const LossSources& sources, const Speech& say);

// How sure a share is that lies between `low` and `high`.
enum class Sureness { guess, rough, close };

// A guess is so wide that no single figure is worth showing.
Sureness sureness_of(double low, double high);

// "only a guess", "roughly known", "closely known".
Text word_for(Sureness sureness);

// Why a speed is right, or why none is said to be.
std::string advice_words(const Advice& advice, const Parameters& parameters, const Speech& say);

// The same as a sentence: "2.9 km/h is right: faster would lose more than 10 %".
std::string reason_words(const Advice& advice, const Parameters& parameters, const Speech& say);

inline constexpr Text kStartCautions[] = {Text::caution_eyes, Text::caution_tip, Text::caution_drum,
                                          Text::caution_slopes, Text::caution_manual};

}  // namespace podrate::ui
