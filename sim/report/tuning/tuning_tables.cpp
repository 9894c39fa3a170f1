#include "report/tuning/tuning_tables.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "log/number.hpp"
#include "report/alarm_summary.hpp"
#include "report/html/long_table.hpp"
#include "report/html/markup.hpp"
#include "report/tuning/tuning_words.hpp"

namespace podrate::sim {
namespace {

using TuningTableRows = std::vector<std::vector<std::string>>;

std::string words_of_alarm(std::size_t alarm) {
    return words_for(static_cast<AlarmId>(alarm));
}

// A figure breaks before its range alone, so that wide tables fit.
std::vector<std::string> breaking_at_ranges(std::vector<std::string> cells) {
    for (std::string& cell : cells) {
        std::string joined;
        for (std::size_t i = 0; i < cell.size(); ++i) {
            const bool joins = cell[i] == ' ' && i + 1 < cell.size() && cell[i + 1] != '(';
            joined += joins ? "\u00a0" : std::string(1, cell[i]);
        }
        cell = joined;
    }
    return cells;
}

std::string ranged_table_html(const std::vector<std::string>& headings, const TuningTableRows& rows) {
    return "<div class=\"ranged\">\n" + table_html(headings, rows, {0}) + "</div>\n";
}

std::vector<std::string> figure_cells(const AlarmSum& sum, const AlarmFigures& f, const AlarmRanges& ranges) {
    const auto range = [&](AlarmFigure which) { return ranges[static_cast<std::size_t>(which)]; };
    const auto share = [&](AlarmFigure which) { return share_text(of(f, which), range(which)); };
    const auto rate = [&](AlarmFigure which) { return rate_text(of(f, which), range(which)); };
    const auto delay = [&](AlarmFigure which) { return delay_text(of(f, which), range(which)); };
    return breaking_at_ranges(
        {fixed(sum.told, 0) + " of " + fixed(sum.episodes, 0), share(AlarmFigure::detection),
         fixed(sum.missed(), 0), rate(AlarmFigure::false_per_h), delay(AlarmFigure::delay_median_s),
         delay(AlarmFigure::delay_90_s), rate(AlarmFigure::alarms_per_h), share(AlarmFigure::chatter_share),
         share(AlarmFigure::in_alarm_share), share(AlarmFigure::idle_share)});
}

const std::vector<std::string> kFigureHeadings = {"told",
                                                  "share told",
                                                  "missed",
                                                  "false alarms an hour",
                                                  "median delay",
                                                  "nine in ten sooner than",
                                                  "alarms an hour",
                                                  "chattered, of the alarms",
                                                  "stood, of the time",
                                                  "stood without a reason, of the time"};

std::string role_of(const TuningChoice& choice, const AlarmConclusion& alarm, std::size_t setting) {
    std::string role;
    const auto add = [&role](const char* words) { role += (role.empty() ? "" : ", ") + std::string(words); };
    if (setting == 0) add("as it was");
    if (setting == choice.chosen.setting) add("recommended");
    if (alarm.unbeaten[setting]) add("unbeaten");
    return role.empty() ? "beaten" : role;
}

std::string change_text(double change, int decimals, double scale = 1.0) {
    if (std::isnan(change)) return "not known";
    const std::string text = fixed(scale * change, decimals);
    return scale * change > 0.0 && text.find_first_not_of("0.") != std::string::npos ? "+" + text : text;
}

// Shares in points.
std::vector<std::string> change_cells(const AlarmFigures& change) {
    static constexpr struct {
        int decimals;
        double scale;
    } kLooks[] = {{1, 100.0}, {1, 1.0}, {1, 1.0}, {2, 1.0}, {2, 1.0}, {1, 100.0}, {1, 100.0}, {1, 100.0}};
    static_assert(std::size(kLooks) == kAlarmFigures);
    std::vector<std::string> cells;
    for (std::size_t f = 0; f < kAlarmFigures; ++f)
        cells.push_back(change_text(change[f], kLooks[f].decimals, kLooks[f].scale));
    return cells;
}

std::vector<std::string> spread_cells(const AlarmFigures& spread) {
    std::vector<std::string> cells = change_cells(spread);
    for (std::string& cell : cells) {
        if (cell.front() == '+') cell.erase(0, 1);
    }
    return cells;
}

AlarmFigures less(const AlarmFigures& a, const AlarmFigures& b) {
    AlarmFigures difference{};
    for (std::size_t f = 0; f < kAlarmFigures; ++f) difference[f] = a[f] - b[f];
    return difference;
}

bool moves_nothing(const ParameterEffect& effect) {
    const auto is_nothing = [](double change) { return std::isnan(change) || change == 0.0; };
    const auto all_nothing = [&](const AlarmFigures& figures) {
        return std::all_of(figures.begin(), figures.end(), is_nothing);
    };
    return all_nothing(effect.spread) && (!effect.down || all_nothing(effect.down->change)) &&
           (!effect.up || all_nothing(effect.up->change));
}

std::string plain_rate(double per_h) {
    return rate_text(per_h, unknown_range());
}

std::string plain_delay(double delay_s) {
    return delay_text(delay_s, unknown_range());
}

}  // namespace

std::string settings_table_html(const TuneTable& table, const TuningChoice& choice,
                                const AlarmConclusion& alarm) {
    const auto rank = [&](std::size_t s) {
        return s == choice.chosen.setting ? 0 : (s == 0 ? 1 : (alarm.unbeaten[s] ? 2 : 3));
    };
    std::vector<std::size_t> order(table.settings.size());
    for (std::size_t s = 0; s < order.size(); ++s) order[s] = s;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    std::vector<std::size_t> first;
    std::vector<std::size_t> alike;
    std::map<std::vector<std::string>, std::size_t> known;  // by its cells: place in `first`
    std::vector<std::vector<std::string>> cells_of;
    for (const std::size_t s : order) {
        std::vector<std::string> cells = figure_cells(alarm.sums[s], alarm.figures[s], alarm.ranges[s]);
        const auto [at, is_new] = known.emplace(cells, first.size());
        if (is_new) {
            first.push_back(s);
            alike.push_back(0);
            cells_of.push_back(std::move(cells));
        } else {
            ++alike[at->second];
        }
    }
    std::vector<std::string> headings = {"setting"};
    headings.insert(headings.end(), table.parameters.begin(), table.parameters.end());
    headings.insert(headings.end(), kFigureHeadings.begin(), kFigureHeadings.end());
    headings.emplace_back("settings alike in all this");
    TuningTableRows rows;
    for (std::size_t i = 0; i < std::min(first.size(), kSettingsListed); ++i) {
        std::vector<std::string>& row = rows.emplace_back();
        row.push_back(role_of(choice, alarm, first[i]));
        for (std::size_t p = 0; p < table.parameters.size(); ++p)
            row.push_back(swept_value_text(table.parameters[p], table.settings[first[i]].values[p]));
        row.insert(row.end(), cells_of[i].begin(), cells_of[i].end());
        row.push_back(alike[i] > 0 ? std::to_string(alike[i]) + " more" : "");
    }
    std::string html = ranged_table_html(headings, rows);
    if (first.size() > rows.size())
        html += "<p class=\"quiet\">" + std::to_string(first.size() - rows.size()) +
                " more, which count less, are not listed.</p>\n";
    return html;
}

std::string effects_table_html(const TuneTable& table, const AlarmConclusion& alarm, std::size_t chosen) {
    TuningTableRows rows;
    const auto add = [&](const std::string& parameter, const std::string& step, const AlarmFigures& change) {
        rows.push_back({parameter, step});
        const std::vector<std::string> cells = change_cells(change);
        rows.back().insert(rows.back().end(), cells.begin(), cells.end());
    };
    std::string without_effect;
    for (const ParameterEffect& effect : alarm.effects) {
        const std::string& name = table.parameters[effect.parameter];
        if (moves_nothing(effect)) {
            without_effect += (without_effect.empty() ? "" : ", ") + name;
            continue;
        }
        const auto value = [&](double v) { return swept_value_text(name, v); };
        const std::string here = value(table.settings[chosen].values[effect.parameter]);
        if (effect.down) add(name, here + " to " + value(effect.down->value), effect.down->change);
        if (effect.up) add(name, here + " to " + value(effect.up->value), effect.up->change);
        add(name,
            "averaged over all other parameters, " + value(effect.least) + " to " + value(effect.greatest),
            less(effect.at_greatest, effect.at_least));
        rows.push_back({name, "... the greatest less the least of these averages"});
        const std::vector<std::string> spread = spread_cells(effect.spread);
        rows.back().insert(rows.back().end(), spread.begin(), spread.end());
    }
    std::string html = table_html({"parameter", "step", "share told, points", "median delay, s",
                                   "nine in ten, s", "false alarms an hour", "alarms an hour",
                                   "chattered, points", "stood, points", "stood without a reason, points"},
                                  rows, {0, 1});
    if (!without_effect.empty())
        html += "<p class=\"quiet\">Without any effect on this alarm: " + escaped(without_effect) + ".</p>\n";
    return html;
}

std::string folds_table_html(const TuneTable& table, const TuningChoice& choice, const CrossCheck& check) {
    TuningTableRows rows;
    const auto told = [](const AlarmSum& sum) {
        return fixed(sum.told, 0) + " of " + fixed(sum.episodes, 0);
    };
    for (const Fold& fold : check.folds) {
        for (std::size_t i = 0; i < choice.alarms.size(); ++i) {
            rows.push_back({fold.name, setting_text(table, fold.chosen.setting),
                            words_of_alarm(choice.alarms[i].alarm), told(fold.sums_before[i]),
                            told(fold.sums_after[i]),
                            plain_rate(of(fold.before[i], AlarmFigure::false_per_h)),
                            plain_rate(of(fold.after[i], AlarmFigure::false_per_h)),
                            plain_delay(of(fold.before[i], AlarmFigure::delay_median_s)),
                            plain_delay(of(fold.after[i], AlarmFigure::delay_median_s))});
        }
    }
    return long_table_html({check.left_out == LeftOut::day ? "day left out" : "machine left out",
                            "chosen on the others", "alarm", "told as it was", "told with it",
                            "false alarms an hour as it was", "with it", "median delay as it was", "with it"},
                           rows, {0, 1, 2});
}

std::string gains_table_html(const TuningChoice& choice, const CrossCheck& check) {
    TuningTableRows rows;
    for (std::size_t i = 0; i < check.of_alarm.size(); ++i) {
        for (std::size_t g = 0; g < kGains; ++g) {
            const GainCheck& gain = check.of_alarm[i][g];
            const Gain kind = static_cast<Gain>(g);
            const std::string range = gain.range.known() ? gain_text(kind, gain.range.low) + " to " +
                                                               gain_text(kind, gain.range.high)
                                                         : "not known";
            const char* verdict = !(gain.on_all > 0.0)
                                      ? (gain.on_all < 0.0 ? "part of the price" : "none promised")
                                  : gain.lost() ? "does not carry over"
                                                : "carries over";
            rows.push_back({words_of_alarm(choice.alarms[i].alarm), name_of(kind),
                            gain_text(kind, gain.on_all), gain_text(kind, gain.left_out), range, verdict});
        }
    }
    return table_html(
        {"alarm", "gain", "chosen and seen on all", "seen on what was left out", "range, 9 times in 10", ""},
        rows, {0, 1, 5});
}

std::string still_table_html(const TuningChoice& choice) {
    TuningTableRows rows;
    for (const StillAlarm& still : choice.still) {
        if (still.sum.judged_h <= 0.0) continue;
        rows.push_back({words_of_alarm(still.alarm)});
        const std::vector<std::string> cells = figure_cells(still.sum, still.figures, still.ranges);
        rows.back().insert(rows.back().end(), cells.begin(), cells.end());
    }
    if (rows.empty()) return {};
    std::vector<std::string> headings = {"alarm"};
    headings.insert(headings.end(), kFigureHeadings.begin(), kFigureHeadings.end());
    return ranged_table_html(headings, rows);
}

}  // namespace podrate::sim
