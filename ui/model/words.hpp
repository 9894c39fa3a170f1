// The words people read, in one place.
#pragma once

#include <cstdint>
#include <string>

#include "podrate/advice/advice.hpp"
#include "podrate/alarm/alarm_panel.hpp"
#include "podrate/parameters.hpp"
#include "podrate/work/work_state.hpp"

namespace podrate::ui {

// "Harvesting", "Waiting to tip", ...
const char* word_for(WorkState state);

// What is the matter, and what to do or to check.
struct Telling {
    std::string what;
    std::string check;
};

// For the first fault that is up; both empty where none is.
Telling fault_words(std::uint8_t faults);

// What the words of an alarm speak of.
struct AlarmFacts {
    Parameters parameters;
    std::uint8_t faults = 0;
    double oldest_min = 0.0;  // since the oldest peas in the hopper were cut
};

Telling alarm_words(AlarmId alarm, const AlarmFacts& facts);

// What the loss is judged from.
struct LossSources {
    int trays = 0;        // counted so far
    bool sensor = false;  // a loss sensor has been heard
    double learnt = 0.0;  // 0 nothing .. 1 all of the drum's level
};

// "no tray counted yet: mostly what is common", "3 trays counted, loss sensor".
std::string loss_source_words(const LossSources& sources);

// How sure a share is that lies between `low` and `high`.
enum class Sureness { guess, rough, close };

// A guess is so wide that no single figure is worth showing.
Sureness sureness_of(double low, double high);

// "only a guess", "roughly known", "closely known".
const char* word_for(Sureness sureness);

// Why a speed is right, or why none is said to be.
std::string advice_words(const Advice& advice, const Parameters& parameters);

// The same as a sentence: "2.9 km/h is right: faster would lose more than 10 %".
std::string reason_words(const Advice& advice, const Parameters& parameters, const std::string& right_kmph);

inline constexpr const char* kPastFold = "Slower brings more: the drum has too much";
inline constexpr const char* kHalfFaster = "0.5 km/h faster";
inline constexpr const char* kHalfSlower = "0.5 km/h slower";

// How often an interval holds the truth.
inline constexpr const char* kNineInTen = "9 times in 10";

inline constexpr const char* kTipCaution =
    "Before tipping: look up for power lines, stand level, nobody near. Follow the operator's manual.";

inline constexpr const char* kStartCautions[] = {
    "Eyes on the field. Read this screen at a glance; touch it only while the machine stands.",
    "Tip on level ground, clear of overhead power lines and of people.",
    "Stop the engine and wait until drum and reel stand still before going near them.",
    "Mind slopes, and the rules of the road on the way between fields.",
    "The operator's manual and local rules come first. These figures are estimates.",
};

}  // namespace podrate::ui
