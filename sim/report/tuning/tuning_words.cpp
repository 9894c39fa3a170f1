#include "report/tuning/tuning_words.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

#include "log/number.hpp"
#include "report/alarm_summary.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kNobodyKnows = "not known";

std::string rate_digits(double per_h) {
    return fixed(per_h, per_h < 1.0 ? 2 : 1);
}

std::string delay_digits(double delay_s) {
    return fixed(delay_s, delay_s < 10.0 ? 1 : 0);
}

template <typename Digits>
std::string with_range(double value, const char* unit, const Range& range, Digits digits) {
    if (std::isnan(value)) return kNobodyKnows;
    std::string text = digits(value) + unit;
    if (range.known()) text += " (" + digits(range.low) + " to " + digits(range.high) + ")";
    return text;
}

std::string percent_digits(double share) {
    const double percent = 100.0 * share;
    return fixed(percent, percent > 0.0 && percent < 10.0 ? 1 : 0);
}

std::string alarm_name(const AlarmConclusion& alarm) {
    return words_for(static_cast<AlarmId>(alarm.alarm));
}

std::string count_text(double count, const char* one, const char* more) {
    return fixed(count, 0) + ' ' + (count == 1.0 ? one : more);
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
    std::string text = "Of \"" + alarm_name(alarm) + "\": ";
    text += most_told >= 0.0
                ? "with no more than " + rate_digits(options.most_false_per_h) +
                      " false alarms an hour at most " + percent_digits(most_told) + " % was told"
                : "no setting has as few as " + rate_digits(options.most_false_per_h) +
                      " false alarms an hour, the least is " + rate_digits(least_false_of_all);
    text += least_false >= 0.0
                ? "; where " + percent_digits(options.least_detection) + " % was told there were at least " +
                      rate_digits(least_false) + " false alarms an hour."
                : "; no setting told " + percent_digits(options.least_detection) + " %.";
    return text;
}

std::string rule_text(const TuningOptions& options) {
    return "at least " + percent_digits(options.least_detection) + " % told and at most " +
           rate_digits(options.most_false_per_h) + " false alarms an hour of each alarm";
}

void add_gain_sentences(const CrossCheck& check, const TuningChoice& choice, bool lost,
                        std::vector<std::string>& to) {
    const std::string whom = check.left_out == LeftOut::day ? "days" : "machines";
    for (std::size_t i = 0; i < check.of_alarm.size(); ++i) {
        for (std::size_t g = 0; g < kGains; ++g) {
            const GainCheck& gain = check.of_alarm[i][g];
            if (!(gain.on_all > 0.0) || gain.lost() != lost) continue;
            const Gain kind = static_cast<Gain>(g);
            std::string text = "\"" + alarm_name(choice.alarms[i]) + "\", " + name_of(kind) + ": " +
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

}  // namespace

std::string swept_value_text(const std::string& parameter, double value) {
    for (const ParameterInfo& info : kParameterTable) {
        if (parameter != info.name) continue;
        const std::string_view unit = info.unit;
        return unit == "1" || unit == "0-2" || unit == "0-1" ? shown(value) : shown(value) + ' ' + info.unit;
    }
    return shown(value);
}

std::string setting_text(const TuneTable& table, std::size_t setting) {
    std::string text;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        text += (i > 0 ? ", " : "") + table.parameters[i] + ' ' +
                swept_value_text(table.parameters[i], table.settings[setting].values[i]);
    }
    return text;
}

std::string share_text(double share, const Range& range) {
    return with_range(share, " %", range, percent_digits);
}

std::string rate_text(double per_h, const Range& range) {
    return with_range(per_h, "", range, rate_digits);
}

std::string delay_text(double delay_s, const Range& range) {
    return with_range(delay_s, " s", range, delay_digits);
}

std::string how_often_text(double per_h) {
    if (std::isnan(per_h)) return kNobodyKnows;
    if (per_h <= 0.0) return "never";
    return per_h >= 1.0
               ? fixed(per_h, 1) + " times an hour"
               : "once in " + shown(per_h > 0.2 ? std::round(10.0 / per_h) / 10.0 : std::round(1.0 / per_h)) +
                     " h";
}

std::string what_to_set(const TuneTable& table, const TuningChoice& choice) {
    std::string set;
    std::string leave;
    const std::vector<double>& now = table.settings[0].values;
    const std::vector<double>& then = table.settings[choice.chosen.setting].values;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        const std::string& name = table.parameters[i];
        if (now[i] == then[i]) {
            leave += (leave.empty() ? "" : ", ") + name + " at " + swept_value_text(name, now[i]);
        } else {
            set += (set.empty() ? "" : ", ") + name + " to " + swept_value_text(name, then[i]) + " (was " +
                   swept_value_text(name, now[i]) + ")";
        }
    }
    if (choice.alarms.empty())
        return "No setting that was swept changes what any alarm does: leave all as it is.";
    if (set.empty()) return "Leave all as it is: " + leave + '.';
    return "Set " + set + (leave.empty() ? "." : "; leave " + leave + '.');
}

std::string brings_text(const TuningChoice& choice, const AlarmConclusion& alarm) {
    const std::size_t set = choice.chosen.setting;
    const auto range = [&](std::size_t setting, AlarmFigure f) {
        return alarm.ranges[setting][static_cast<std::size_t>(f)];
    };
    const auto figures_text = [&](std::size_t setting) {
        const AlarmSum& sum = alarm.sums[setting];
        const AlarmFigures& f = alarm.figures[setting];
        std::string text;
        if (sum.episodes > 0.0) {
            text +=
                fixed(sum.told, 0) + " of " + fixed(sum.episodes, 0) + " told, " +
                share_text(of(f, AlarmFigure::detection), range(setting, AlarmFigure::detection)) +
                ", half of them within " +
                delay_text(of(f, AlarmFigure::delay_median_s), range(setting, AlarmFigure::delay_median_s)) +
                ", ";
        } else {
            text += "nothing was to be told, ";
        }
        return text + rate_text(of(f, AlarmFigure::false_per_h), range(setting, AlarmFigure::false_per_h)) +
               " false alarms an hour";
    };
    std::string text = "\"" + alarm_name(alarm) + "\": " + figures_text(set) + ".";
    if (set != 0) text += " As it was: " + figures_text(0) + ".";
    const double false_per_h = of(alarm.figures[set], AlarmFigure::false_per_h);
    text += " Price: it misses " + fixed(alarm.sums[set].missed(), 0) + " of " +
            count_text(alarm.sums[set].episodes, "episode", "episodes") + " and cries wolf " +
            how_often_text(false_per_h);
    const Range often = range(set, AlarmFigure::false_per_h);
    if (often.known()) {
        text += " (at worst " + how_often_text(often.high) + ", at best " + how_often_text(often.low) + ")";
    }
    return text + '.';
}

std::string summary_text(const TuneTable& table, const TuningChoice& choice) {
    std::string text = what_to_set(table, choice);
    const std::size_t set = choice.chosen.setting;
    for (const AlarmConclusion& alarm : choice.alarms) {
        const auto beside = [&](const std::string& then, const std::string& now) {
            return set == 0 ? then : then + " (was " + now + ")";
        };
        const AlarmSum& sum = alarm.sums[set];
        const auto figure = [&](std::size_t setting, AlarmFigure f) { return of(alarm.figures[setting], f); };
        text += " \"" + alarm_name(alarm) + "\" then cries wolf " +
                beside(how_often_text(figure(set, AlarmFigure::false_per_h)),
                       how_often_text(figure(0, AlarmFigure::false_per_h)));
        if (sum.episodes > 0.0) {
            text += ", misses " + beside(fixed(sum.missed(), 0), fixed(alarm.sums[0].missed(), 0)) + " of " +
                    fixed(sum.episodes, 0) + " and tells after " +
                    beside(delay_text(figure(set, AlarmFigure::delay_median_s), unknown_range()),
                           delay_text(figure(0, AlarmFigure::delay_median_s), unknown_range()));
        }
        text += '.';
    }
    if (choice.alarms.empty()) return text;
    const std::size_t doubts = warnings(table, choice).size();
    if (doubts > 0)
        return text + " How sure that is: see the " +
               (doubts == 1 ? "warning" : fixed(static_cast<double>(doubts), 0) + " warnings") + " below.";
    return text + (set == 0 ? " Nothing speaks against it."
                            : " The gain is seen on days and machines left out, too.");
}

std::vector<std::string> reasons(const TuneTable& table, const TuningChoice& choice) {
    std::vector<std::string> all;
    if (choice.alarms.empty()) return all;
    std::size_t good = 0;
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
        const bool is_good = std::all_of(
            choice.alarms.begin(), choice.alarms.end(),
            [&](const AlarmConclusion& alarm) { return meets(alarm.figures[setting], choice.options); });
        if (is_good) ++good;
    }
    const std::string of_all =
        " of " + count_text(static_cast<double>(table.settings.size()), "setting", "settings");
    const std::string asked = " what is asked: " + rule_text(choice.options) + ".";
    if (good > 0) {
        all.push_back(fixed(static_cast<double>(good), 0) + of_all + (good == 1 ? " meets" : " meet") +
                      asked + (good == 1 ? " It is this one." : " Of these this one tells soonest."));
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
    add_gain_sentences(choice.by_day, choice, false, all);
    add_met_sentence(choice.by_day, choice, all);
    add_gain_sentences(choice.by_machine, choice, false, all);
    add_met_sentence(choice.by_machine, choice, all);
    return all;
}

std::vector<std::string> warnings(const TuneTable& table, const TuningChoice& choice) {
    std::vector<std::string> all;
    for (const AlarmConclusion& alarm : choice.alarms) {
        if (!alarm.too_few(choice.options)) continue;
        const double episodes = alarm.sums[choice.chosen.setting].episodes;
        std::string text =
            "Too few episodes of \"" + alarm_name(alarm) + "\" to tell how many it would miss: " +
            (episodes > 0.0 ? count_text(episodes, "was", "were") + " to be told" : "there was none");
        if (alarm.detection_wilson.known()) {
            text += ", so the share told may be " + percent_digits(alarm.detection_wilson.low) + " to " +
                    percent_digits(alarm.detection_wilson.high) + " % (Wilson's range, wider than " +
                    percent_digits(choice.options.widest_detection) + " %)";
        }
        all.push_back(text + '.');
    }
    if (choice.alarms.empty()) return all;
    if (table.on.size() < 6)
        all.push_back(
            "Ranges of so few machine's days are too narrow: on made-up days those of 9 in 10 held "
            "the truth 0.86 of the time with six and 0.74 with three. Of one there is no range.");
    if (choice.chosen.setting == 0) return all;
    if (choice.by_day.folds.empty())
        all.push_back("All is of one day: whether it holds on another nobody can tell.");
    if (choice.by_machine.folds.empty())
        all.push_back("All is of one machine: whether it holds on another nobody can tell.");
    add_gain_sentences(choice.by_day, choice, true, all);
    add_gain_sentences(choice.by_machine, choice, true, all);
    return all;
}

std::string recommendation_note(const TuneTable& table, const TuningChoice& choice) {
    std::string note = what_to_set(table, choice);
    for (const AlarmConclusion& alarm : choice.alarms) note += ' ' + brings_text(choice, alarm);
    return note;
}

const char* name_of(Gain gain) {
    switch (gain) {
        case Gain::detection: return "more told";
        case Gain::false_per_h: return "fewer false alarms";
        case Gain::delay_s: return "told sooner";
    }
    return "";
}

std::string gain_text(Gain gain, double amount) {
    if (std::isnan(amount)) return kNobodyKnows;
    switch (gain) {
        case Gain::detection: return fixed(100.0 * amount, 1) + " points";
        case Gain::false_per_h: return fixed(amount, 2) + " an hour";
        case Gain::delay_s: return fixed(amount, 1) + " s";
    }
    return {};
}

}  // namespace podrate::sim
