#include "report/tuning/tuning_tables.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>

#include "log/number.hpp"
#include "report/alarm_summary.hpp"
#include "report/html/long_table.hpp"
#include "report/html/markup.hpp"
#include "report/tuning/published_figures.hpp"
#include "report/tuning/tuning_words.hpp"

namespace podrate::sim {
namespace {

using TuningTableRows = std::vector<std::vector<std::string>>;

std::string words_of_alarm(std::size_t alarm) {
    return words_for(static_cast<AlarmId>(alarm));
}

std::vector<std::string> figure_cells(const AlarmSum& sum, const AlarmFigures& f, const AlarmRanges& ranges) {
    const auto range = [&](AlarmFigure which) { return ranges[static_cast<std::size_t>(which)]; };
    const auto share = [&](AlarmFigure which) { return share_text(of(f, which), range(which)); };
    const auto rate = [&](AlarmFigure which) { return rate_text(of(f, which), range(which)); };
    const auto delay = [&](AlarmFigure which) { return delay_text(of(f, which), range(which)); };
    return {fixed(sum.told, 0) + " of " + fixed(sum.episodes, 0),
            share(AlarmFigure::detection),
            fixed(sum.missed(), 0),
            rate(AlarmFigure::false_per_h),
            delay(AlarmFigure::delay_median_s),
            delay(AlarmFigure::delay_90_s),
            rate(AlarmFigure::alarms_per_h),
            share(AlarmFigure::chatter_share),
            share(AlarmFigure::in_alarm_share)};
}

const std::vector<std::string> kFigureHeadings = {"told",
                                                  "share told",
                                                  "missed",
                                                  "false alarms an hour",
                                                  "median delay",
                                                  "nine in ten sooner than",
                                                  "alarms an hour",
                                                  "chattered, of the alarms",
                                                  "stood, of the time"};

std::string role_of(const TuningChoice& choice, const AlarmConclusion& alarm, std::size_t setting) {
    std::string role;
    const auto add = [&role](const char* words) { role += (role.empty() ? "" : ", ") + std::string(words); };
    if (setting == 0) add("as it was");
    if (setting == choice.chosen.setting) add("recommended");
    if (alarm.unbeaten[setting]) add("unbeaten");
    return role;
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
    } kLooks[kAlarmFigures] = {{1, 100.0}, {1, 1.0}, {1, 1.0}, {2, 1.0}, {2, 1.0}, {1, 100.0}, {1, 100.0}};
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

std::string plain_rate(double per_h) {
    return rate_text(per_h, unknown_range());
}

std::string plain_delay(double delay_s) {
    return delay_text(delay_s, unknown_range());
}

// A parameter of an alarm by the end or the middle of its name: "loss_high" and "_on_s".
const ParameterInfo* parameter_of(AlarmId alarm, std::string_view part) {
    const std::string begin = name_of(alarm) + std::string(part);
    for (const ParameterInfo& info : kParameterTable) {
        if (std::string_view(info.name).starts_with(begin)) return &info;
    }
    return nullptr;
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
    std::vector<std::string> headings = table.parameters;
    headings.insert(headings.end(), kFigureHeadings.begin(), kFigureHeadings.end());
    headings.insert(headings.end(), {"settings alike in all this", ""});
    TuningTableRows rows;
    for (std::size_t i = 0; i < std::min(first.size(), kSettingsListed); ++i) {
        std::vector<std::string>& row = rows.emplace_back();
        for (std::size_t p = 0; p < table.parameters.size(); ++p)
            row.push_back(swept_value_text(table.parameters[p], table.settings[first[i]].values[p]));
        row.insert(row.end(), cells_of[i].begin(), cells_of[i].end());
        row.push_back(alike[i] > 0 ? std::to_string(alike[i]) + " more" : "");
        row.push_back(role_of(choice, alarm, first[i]));
    }
    std::string html = table_html(headings, rows, {headings.size() - 1});
    if (first.size() > rows.size())
        html += "<p class=\"quiet\">" + std::to_string(first.size() - rows.size()) +
                " more, beaten by those shown, are not listed.</p>\n";
    return html;
}

std::string effects_table_html(const TuneTable& table, const AlarmConclusion& alarm, std::size_t chosen) {
    TuningTableRows rows;
    const auto add = [&](const std::string& parameter, const std::string& step, const AlarmFigures& change) {
        rows.push_back({parameter, step});
        const std::vector<std::string> cells = change_cells(change);
        rows.back().insert(rows.back().end(), cells.begin(), cells.end());
    };
    for (const ParameterEffect& effect : alarm.effects) {
        const std::string& name = table.parameters[effect.parameter];
        const auto value = [&](double v) { return swept_value_text(name, v); };
        const std::string here = value(table.settings[chosen].values[effect.parameter]);
        if (effect.down) add(name, here + " to " + value(effect.down->value), effect.down->change);
        if (effect.up) add(name, here + " to " + value(effect.up->value), effect.up->change);
        add(name, "mean of all settings, " + value(effect.least) + " to " + value(effect.greatest),
            less(effect.at_greatest, effect.at_least));
        rows.push_back({name, "means at its values, how far apart"});
        const std::vector<std::string> spread = spread_cells(effect.spread);
        rows.back().insert(rows.back().end(), spread.begin(), spread.end());
    }
    return table_html({"parameter", "step", "share told, points", "median delay, s", "nine in ten, s",
                       "false alarms an hour", "alarms an hour", "chattered, points", "stood, points"},
                      rows, {0, 1});
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

std::string burden_table_html(const TuningChoice& choice) {
    const PanelConclusion& now = choice.panel[0];
    const PanelConclusion& then = choice.panel[choice.chosen.setting];
    TuningTableRows rows;
    const auto text = [](const PanelConclusion& panel, PanelFigure f) {
        const Range& range = panel.ranges[static_cast<std::size_t>(f)];
        return f == PanelFigure::alarms_per_ten_min ? rate_text(of(panel.figures, f), range)
                                                    : share_text(of(panel.figures, f), range);
    };
    const double per_ten = of(then.figures, PanelFigure::alarms_per_ten_min);
    const double flood = of(then.figures, PanelFigure::flood_share);
    rows.push_back({"alarms in 10 minutes of work, mean",
                    "about 1: very likely acceptable; 2: at most manageable",
                    text(now, PanelFigure::alarms_per_ten_min), text(then, PanelFigure::alarms_per_ten_min),
                    std::isnan(per_ten)            ? "not known"
                    : per_ten <= kAcceptablePerTen ? "acceptable"
                    : per_ten <= kManageablePerTen ? "manageable"
                                                   : "too many"});
    rows.push_back({"stretches of 10 minutes with more than 1", "no published figure",
                    text(now, PanelFigure::over_one_share), text(then, PanelFigure::over_one_share), ""});
    rows.push_back({"... with more than 2", "no published figure", text(now, PanelFigure::over_two_share),
                    text(then, PanelFigure::over_two_share), ""});
    rows.push_back({"... in flood: more than 10", "less than 1 %", text(now, PanelFigure::flood_share),
                    text(then, PanelFigure::flood_share),
                    std::isnan(flood) ? "not known" : (flood < kMostFloodShare ? "met" : "not met")});
    rows.push_back({"most in 10 minutes", "no more than 10", std::to_string(now.most_in_ten),
                    std::to_string(then.most_in_ten), then.most_in_ten <= kFloodInTen ? "met" : "not met"});
    static constexpr PanelFigure kByPriority[] = {PanelFigure::low_share, PanelFigure::medium_share,
                                                  PanelFigure::high_share};
    static constexpr const char* kNames[] = {"of low priority", "of medium priority", "of high priority"};
    for (std::size_t p = 0; p < 3; ++p) {
        rows.push_back({kNames[p], "about " + fixed(100.0 * kPriorityShares[p], 0) + " %",
                        text(now, kByPriority[p]), text(then, kByPriority[p]), ""});
    }
    return table_html({"all alarms of a driver", "published", "as it was", "recommended", "verdict"}, rows,
                      {0, 1, 4});
}

std::string starting_points_html(const TuneTable& table, const TuningChoice& choice) {
    const Parameters then = with_setting(table, choice.chosen.setting, choice.present);
    TuningTableRows rows;
    for (int i = 0; i < kAlarms; ++i) {
        const auto alarm = static_cast<AlarmId>(i);
        const SignalKind* kind = nearest_kind(alarm);
        if (kind == nullptr) continue;
        const double range =
            alarm == AlarmId::hopper_leak ? static_cast<double>(then.hopper_capacity_kg) : 1.0;
        const auto add = [&](const char* what, const char* part, double published) {
            const ParameterInfo* info = parameter_of(alarm, part);
            if (info == nullptr) return;
            const auto value = [&](const Parameters& from) {
                return swept_value_text(info->name, static_cast<double>(from.*info->member));
            };
            rows.push_back({words_for(alarm), kind->name, what, swept_value_text(info->name, published),
                            value(choice.present), value(then)});
        };
        add("deadband", "_deadband", kind->deadband_share * range);
        add("on-delay", "_on_s", kind->delay_s);
        add("off-delay", "_off_s", kind->delay_s);
    }
    return table_html({"alarm", "nearest kind", "", "published to start from", "as it was", "recommended"},
                      rows, {0, 1, 2});
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
    return table_html(headings, rows, {0});
}

}  // namespace podrate::sim
