#include "report/tuning/tuning_reasons.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "log/number.hpp"
#include "report/tuning/tuning_words.hpp"

namespace podrate::sim {
namespace {

// As it was asked, without rounding away what was meant.
std::string asked_percent(double share) {
    return shown(std::round(1000.0 * share) / 10.0);
}

std::size_t kinds_of(const TuneTable& table, std::string TunedOn::*key) {
    std::set<std::string> kinds;
    for (const TunedOn& on : table.on) kinds.insert(on.*key);
    return kinds.size();
}

bool meets(const AlarmFigures& figures, const TuningOptions& options) {
    return shortfall_of(figures, options) == 0.0;
}

// Why no setting gives both: the most told with few enough false alarms, the fewest of those where enough is
// told.
std::string why_none(const AlarmConclusion& alarm, const TuningOptions& options) {
    double most_told = -1.0;
    double least_false = -1.0;
    double least_false_of_all = -1.0;
    for (const AlarmFigures& f : alarm.figures) {
        const double detection = of(f, AlarmFigure::detection);
        const double false_per_h = of(f, AlarmFigure::false_per_h);
        if (std::isnan(false_per_h)) continue;
        if (least_false_of_all < 0.0 || false_per_h < least_false_of_all) least_false_of_all = false_per_h;
        if (false_per_h <= options.most_false_per_h && detection > most_told) most_told = detection;
        if (detection >= options.least_detection && (least_false < 0.0 || false_per_h < least_false))
            least_false = false_per_h;
    }
    std::string text = "Of " + alarm_text(alarm) + ": ";
    text += most_told >= 0.0
                ? "with no more than " + shown(options.most_false_per_h) + " false alarms an hour at most " +
                      share_text(most_told, unknown_range()) + " was told"
                : "no setting has as few as " + shown(options.most_false_per_h) +
                      " false alarms an hour, the least is " + rate_text(least_false_of_all, unknown_range());
    text += least_false >= 0.0
                ? "; where " + asked_percent(options.least_detection) + " % was told there were at least " +
                      rate_text(least_false, unknown_range()) + " false alarms an hour."
                : "; no setting told " + asked_percent(options.least_detection) + " %.";
    return text;
}

std::string rule_text(const TuningOptions& options) {
    return "at least " + asked_percent(options.least_detection) + " % told and at most " +
           shown(options.most_false_per_h) + " false alarms an hour of each alarm";
}

void add_gain_sentences(const CrossCheck& check, const TuningChoice& choice, bool lost,
                        std::vector<std::string>& to) {
    const std::string whom = check.left_out == LeftOut::day ? "days" : "machines";
    for (std::size_t i = 0; i < check.of_alarm.size(); ++i) {
        for (std::size_t g = 0; g < kGains; ++g) {
            const GainCheck& gain = check.of_alarm[i][g];
            if (!(gain.on_all > 0.0) || gain.lost() != lost) continue;
            const Gain kind = static_cast<Gain>(g);
            std::string text = alarm_text(choice.alarms[i]) + ", " + name_of(kind) + ": " +
                               gain_text(kind, gain.on_all) + " on all " + whom + ", " +
                               gain_text(kind, gain.left_out) + " on " + whom + " left out";
            if (gain.range.known())
                text +=
                    " (" + gain_text(kind, gain.range.low) + " to " + gain_text(kind, gain.range.high) + ")";
            text += lost ? ". The gain does not carry over: its range does not lie above zero."
                         : ". It carries over.";
            to.push_back(text);
        }
    }
}

// Who says what an alarm had to tell, by machine's days; empty where nobody does.
std::string known_from_text(const TuneTable& table, const AlarmConclusion& alarm) {
    static constexpr struct {
        std::optional<EpisodeSource> from;
        const char* words;
    } kFrom[] = {{EpisodeSource::truth, "the truth of synthetic days"},
                 {EpisodeSource::marked, "episodes.csv"},
                 {EpisodeSource::trays, "trays"},
                 {std::nullopt, "nobody"}};
    std::string text;
    for (const auto& one : kFrom) {
        const auto days = std::count_if(table.on.begin(), table.on.end(), [&](const TunedOn& on) {
            return on.known_from[alarm.alarm] == one.from;
        });
        if (!one.from && text.empty()) return {};
        if (days == 0) continue;
        text += (text.empty() ? "What " + alarm_text(alarm) + " had to tell is said by " : ", by ") +
                one.words + " on " + count_text(static_cast<double>(days), "machine's day", "machine's days");
    }
    return text + '.';
}

const char* name_of_price(Gain gain) {
    switch (gain) {
        case Gain::detection: return "fewer told";
        case Gain::false_per_h: return "more false alarms";
        case Gain::delay_s: return "told later";
    }
    return "";
}

// A price that is higher on what was left out than on all: its whole range is.
void add_price_sentences(const CrossCheck& check, const TuningChoice& choice, std::vector<std::string>& to) {
    const std::string whom = check.left_out == LeftOut::day ? "days" : "machines";
    for (std::size_t i = 0; i < check.of_alarm.size(); ++i) {
        for (std::size_t g = 0; g < kGains; ++g) {
            const GainCheck& gain = check.of_alarm[i][g];
            if (gain.on_all > 0.0 || !gain.range.known() || !(gain.range.high < gain.on_all)) continue;
            const Gain kind = static_cast<Gain>(g);
            to.push_back(alarm_text(choice.alarms[i]) + ", " + name_of_price(kind) + ": " +
                         gain_text(kind, -gain.on_all) + " on all " + whom + ", but " +
                         gain_text(kind, -gain.left_out) + " on " + whom + " left out (" +
                         gain_text(kind, -gain.range.high) + " to " + gain_text(kind, -gain.range.low) +
                         "). The price is higher there.");
        }
    }
}

// On how many left out all that is asked was met by what was chosen without them.
void add_met_sentence(const CrossCheck& check, const TuningChoice& choice, std::vector<std::string>& to) {
    if (check.folds.empty()) return;
    const auto met = std::count_if(check.folds.begin(), check.folds.end(), [&](const Fold& fold) {
        return std::all_of(fold.after.begin(), fold.after.end(),
                           [&](const AlarmFigures& f) { return meets(f, choice.options); });
    });
    to.push_back(std::string("What is asked was met on ") + std::to_string(met) + " of " +
                 std::to_string(check.folds.size()) +
                 (check.left_out == LeftOut::day ? " days" : " machines") +
                 " left out by what was chosen without them.");
}

// Of several that meet what is asked.
std::string why_of_these(std::size_t sure) {
    if (sure == 0)
        return " With so few episodes and hours none is sure to keep to it on other days: this one leaves "
               "the "
               "least open and, of those alike in that, tells soonest.";
    if (sure == 1) return " This one alone is within it by its ranges, too.";
    return " Of the " + fixed(static_cast<double>(sure), 0) +
           " that are within it by their ranges, too, this one tells soonest.";
}

std::vector<std::string> why_chosen(const TuneTable& table, const TuningChoice& choice) {
    std::vector<std::string> all;
    if (choice.alarms.empty()) return all;
    if (std::none_of(choice.alarms.begin(), choice.alarms.end(), is_known)) {
        all.emplace_back(
            "Nobody knows what was to be told on these days, so nothing speaks for any setting. Days with "
            "their truth, trays, or times marked in episodes.csv would.");
        return all;
    }
    std::size_t good = 0;
    std::size_t sure = 0;
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
        const auto all_meet = [&](auto meets_it) {
            return std::all_of(choice.alarms.begin(), choice.alarms.end(), meets_it);
        };
        if (!all_meet(
                [&](const AlarmConclusion& alarm) { return meets(alarm.figures[setting], choice.options); }))
            continue;
        ++good;
        if (all_meet([&](const AlarmConclusion& alarm) {
                return unsure_shortfall_of(alarm.sums[setting], choice.options) == 0.0;
            }))
            ++sure;
    }
    const std::string of_all =
        " of " + count_text(static_cast<double>(table.settings.size()), "setting", "settings");
    const std::string asked = " what is asked: " + rule_text(choice.options) + ".";
    if (good > 0) {
        all.push_back(fixed(static_cast<double>(good), 0) + of_all + (good == 1 ? " meets" : " meet") +
                      asked + (good == 1 ? " It is this one." : why_of_these(sure)));
        return all;
    }
    all.push_back("None" + of_all + " meets" + asked +
                  " This one is nearest: how many times the missed share is over "
                  "what is allowed, times the same of the false alarms, is the least.");
    for (const AlarmConclusion& alarm : choice.alarms) {
        if (std::none_of(alarm.figures.begin(), alarm.figures.end(),
                         [&](const AlarmFigures& f) { return meets(f, choice.options); }))
            all.push_back(why_none(alarm, choice.options));
    }
    if (all.size() == 1)
        all.emplace_back("Each alarm alone has a setting that meets it, but none meets it for all.");
    return all;
}

// Parameters that each other setting changes, whether it gains by that or not.
std::string never_left_text(const TuneTable& table, const TuningChoice& choice) {
    if (choice.chosen.setting == 0 || table.parameters.size() < 2) return {};
    std::string names;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        const double now = table.settings[0].values[i];
        const bool kept = std::any_of(table.settings.begin() + 1, table.settings.end(),
                                      [&](const TuneSetting& s) { return same_value(s.values[i], now); });
        if (!kept && !std::isnan(now))
            names += (names.empty() ? "" : ", ") + table.parameters[i] + " at " +
                     swept_value_text(table.parameters[i], now);
    }
    if (names.empty()) return {};
    return "As it was, but not among the values tried: " + names +
           ". Each setting changes that, whether it gains by it or not; try it, too, to know.";
}

}  // namespace

std::vector<std::string> reasons(const TuneTable& table, const TuningChoice& choice) {
    std::vector<std::string> all = why_chosen(table, choice);
    const std::string never_left = never_left_text(table, choice);
    if (!never_left.empty()) all.push_back(never_left);
    return all;
}

std::vector<std::string> how_sure(const TuneTable& table, const TuningChoice& choice) {
    std::vector<std::string> all;
    double hours = 0.0;
    for (const MachineDayTally& day : table.tallies[0]) hours += day.panel.work_h;
    const auto count = [](std::size_t n, const char* one, const char* more) {
        return count_text(static_cast<double>(n), one, more);
    };
    all.push_back("It rests on " + count(kinds_of(table, &TunedOn::day), "day", "days") + " and " +
                  count(kinds_of(table, &TunedOn::machine), "machine", "machines") + ", " +
                  count(table.on.size(), "machine's day", "machine's days") + " with " + fixed(hours, 0) +
                  " h of work. Ranges in brackets hold the truth " + fixed(10.0 * choice.options.level, 0) +
                  " times in 10 where there are many machine's days.");
    if (choice.alarms.empty()) return all;
    for (const AlarmConclusion& alarm : choice.alarms) {
        const std::string known = known_from_text(table, alarm);
        if (!known.empty()) all.push_back(known);
    }
    add_gain_sentences(choice.by_day, choice, false, all);
    add_met_sentence(choice.by_day, choice, all);
    add_gain_sentences(choice.by_machine, choice, false, all);
    add_met_sentence(choice.by_machine, choice, all);
    return all;
}

std::vector<std::string> warnings(const TuneTable& table, const TuningChoice& choice) {
    std::vector<std::string> all;
    for (const AlarmConclusion& alarm : choice.alarms) {
        if (!is_known(alarm)) {
            all.push_back("Of " + alarm_text(alarm) +
                          " nobody knows what it had to tell: what it misses and tells for nothing is not "
                          "in the choice.");
            continue;
        }
        if (!alarm.too_few(choice.options)) continue;
        const double episodes = alarm.sums[choice.chosen.setting].episodes;
        std::string text =
            "Too few episodes of " + alarm_text(alarm) + " to tell how many it would miss: " +
            (episodes > 0.0 ? count_text(episodes, "was", "were") + " to be told" : "there was none");
        if (alarm.detection_wilson.known()) {
            text += ", so the share told may be " + share_text(alarm.detection_wilson.low, unknown_range()) +
                    " to " + share_text(alarm.detection_wilson.high, unknown_range()) +
                    " (Wilson's range, wider than " + asked_percent(choice.options.widest_detection) + " %)";
        }
        all.push_back(text + '.');
    }
    if (choice.alarms.empty()) return all;
    if (table.on.size() <= 6)
        all.push_back(
            "Ranges of so few machine's days are too narrow: on made-up days those of 9 in 10 held "
            "the truth 0.86 of the time with six and 0.74 with three. Of one there is no range.");
    if (choice.chosen.setting == 0) return all;
    if (choice.by_day.folds.empty())
        all.push_back("All is of one day: whether it holds on another nobody can tell.");
    if (choice.by_machine.folds.empty())
        all.push_back("All is of one machine: whether it holds on another nobody can tell.");
    for (const CrossCheck* check : {&choice.by_day, &choice.by_machine}) {
        add_gain_sentences(*check, choice, true, all);
        add_price_sentences(*check, choice, all);
    }
    return all;
}

}  // namespace podrate::sim
