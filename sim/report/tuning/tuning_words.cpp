#include "report/tuning/tuning_words.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "log/number.hpp"
#include "report/alarm_summary.hpp"
#include "report/tuning/tuning_reasons.hpp"

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
std::string ranged_text(double value, const char* unit, const Range& range, Digits digits) {
    if (std::isnan(value)) return kNobodyKnows;
    std::string text = digits(value) + unit;
    if (range.known()) text += " (" + digits(range.low) + " to " + digits(range.high) + ")";
    return text;
}

std::string percent_digits(double share) {
    const double percent = 100.0 * share;
    return fixed(percent, percent > 0.0 && percent < 10.0 ? 1 : 0);
}

}  // namespace

std::string swept_value_text(const std::string& parameter, double value) {
    if (std::isnan(value)) return "as each machine has it";
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
    return ranged_text(share, " %", range, percent_digits);
}

std::string rate_text(double per_h, const Range& range) {
    return ranged_text(per_h, "", range, rate_digits);
}

std::string delay_text(double delay_s, const Range& range) {
    return ranged_text(delay_s, " s", range, delay_digits);
}

std::string how_often_text(double per_h) {
    if (std::isnan(per_h)) return kNobodyKnows;
    if (per_h <= 0.0) return "not once";
    return per_h >= 1.0
               ? fixed(per_h, 1) + " times an hour"
               : "once in " + shown(per_h > 0.2 ? std::round(10.0 / per_h) / 10.0 : std::round(1.0 / per_h)) +
                     " h";
}

std::string count_text(double count, const char* one, const char* more) {
    return fixed(count, 0) + ' ' + (count == 1.0 ? one : more);
}

std::string alarm_text(const AlarmConclusion& alarm) {
    return '"' + std::string(words_for(static_cast<AlarmId>(alarm.alarm))) + '"';
}

bool is_known(const AlarmConclusion& alarm) {
    return alarm.sums[0].known_h > 0.0;
}

std::string what_to_set(const TuneTable& table, const TuningChoice& choice) {
    std::string set;
    std::string leave;
    const std::vector<double>& now = table.settings[0].values;
    const std::vector<double>& then = table.settings[choice.chosen.setting].values;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        const std::string& name = table.parameters[i];
        if (same_value(now[i], then[i])) {
            leave += (leave.empty() ? "" : ", ") + name + (std::isnan(now[i]) ? " " : " at ") +
                     swept_value_text(name, now[i]);
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
    if (!is_known(alarm)) {
        const auto often = [&](std::size_t setting) {
            return rate_text(of(alarm.figures[setting], AlarmFigure::alarms_per_h),
                             range(setting, AlarmFigure::alarms_per_h));
        };
        return alarm_text(alarm) + ": nobody knows what it had to tell. It came " + often(set) +
               " times an hour" + (set != 0 ? ", as it was " + often(0) : "") + '.';
    }
    const auto figures_text = [&](std::size_t setting) {
        const AlarmSum& sum = alarm.sums[setting];
        const AlarmFigures& f = alarm.figures[setting];
        std::string text;
        if (sum.episodes > 0.0) {
            text += fixed(sum.told, 0) + " of " + fixed(sum.episodes, 0) + " told, " +
                    share_text(of(f, AlarmFigure::detection), range(setting, AlarmFigure::detection)) + ", ";
            if (sum.told > 0.0)
                text += "half of them within " +
                        delay_text(of(f, AlarmFigure::delay_median_s),
                                   range(setting, AlarmFigure::delay_median_s)) +
                        ", ";
        } else {
            text += "nothing was to be told, ";
        }
        return text + rate_text(of(f, AlarmFigure::false_per_h), range(setting, AlarmFigure::false_per_h)) +
               " false alarms an hour";
    };
    std::string text = alarm_text(alarm) + ": " + figures_text(set) + ".";
    if (set != 0) text += " As it was: " + figures_text(0) + ".";
    const double false_per_h = of(alarm.figures[set], AlarmFigure::false_per_h);
    text += " Price: it misses " + fixed(alarm.sums[set].missed(), 0) + " of " +
            count_text(alarm.sums[set].episodes, "episode", "episodes") + " and cries wolf " +
            how_often_text(false_per_h);
    const Range often = range(set, AlarmFigure::false_per_h);
    if (often.known()) {
        text += " (at worst " + how_often_text(often.high) + ", at best " + how_often_text(often.low) + ")";
    }
    return text + ", and stands without a reason for " +
           share_text(of(alarm.figures[set], AlarmFigure::idle_share), range(set, AlarmFigure::idle_share)) +
           " of the time.";
}

std::string summary_text(const TuneTable& table, const TuningChoice& choice) {
    std::string text = what_to_set(table, choice);
    const std::size_t set = choice.chosen.setting;
    for (const AlarmConclusion& alarm : choice.alarms) {
        const auto beside = [&](const std::string& then, const std::string& now) {
            return set == 0 ? then : then + " (was " + now + ")";
        };
        if (!is_known(alarm)) {
            text += " What " + alarm_text(alarm) + " had to tell nobody knows.";
            continue;
        }
        const AlarmSum& sum = alarm.sums[set];
        const auto figure = [&](std::size_t setting, AlarmFigure f) { return of(alarm.figures[setting], f); };
        text += ' ' + alarm_text(alarm) + " then cries wolf " +
                beside(how_often_text(figure(set, AlarmFigure::false_per_h)),
                       how_often_text(figure(0, AlarmFigure::false_per_h)));
        if (sum.episodes > 0.0) {
            text += ", misses " + beside(fixed(sum.missed(), 0), fixed(alarm.sums[0].missed(), 0)) + " of " +
                    fixed(sum.episodes, 0);
            if (sum.told > 0.0)
                text += " and tells after " +
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
    // Of a gain that is lost on what was left out a warning would tell.
    const bool gains =
        std::any_of(choice.by_day.of_alarm.begin(), choice.by_day.of_alarm.end(), [](const auto& of_alarm) {
            return std::any_of(of_alarm.begin(), of_alarm.end(),
                               [](const GainCheck& gain) { return gain.on_all > 0.0; });
        });
    return text +
           (gains ? " The gain is seen on days and machines left out, too." : " Nothing speaks against it.");
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
