#include "tune/tuning_choice.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

AlarmRanges alarm_ranges(const AlarmRow& row, const PlaceDraws& draws, double level) {
    std::array<std::vector<double>, kAlarmFigures> drawn;
    for (std::vector<double>& values : drawn) values.reserve(draws.count());
    for (std::size_t draw = 0; draw < draws.count(); ++draw) {
        const AlarmFigures figures = row.figures(draws.times(draw));
        for (std::size_t f = 0; f < kAlarmFigures; ++f) drawn[f].push_back(figures[f]);
    }
    AlarmRanges ranges{};
    for (std::size_t f = 0; f < kAlarmFigures; ++f)
        ranges[f] = bootstrap_range(drawn[f], draws.places(), level);
    const AlarmSum sum = row.sum(std::vector<int>(draws.places(), 1));
    Range& detection = ranges[static_cast<std::size_t>(AlarmFigure::detection)];
    const Range wilson = wilson_range(sum.told, sum.episodes, level);
    if (detection.known())
        detection = {std::min(detection.low, wilson.low), std::max(detection.high, wilson.high)};
    Range& false_per_h = ranges[static_cast<std::size_t>(AlarmFigure::false_per_h)];
    if (false_per_h.known())
        false_per_h.high = std::max(false_per_h.high, rate_bound(sum.false_alarms, sum.known_h, level));
    return ranges;
}

PanelConclusion panel_conclusion(const TuneTable& table, std::size_t setting, const Parameters& present,
                                 const PlaceDraws& draws, double level) {
    PanelConclusion panel;
    const PanelRow row(table, setting, present);
    panel.figures = row.figures(std::vector<int>(draws.places(), 1));
    panel.most_in_ten = most_in_ten(table, setting);
    std::array<std::vector<double>, kPanelFigures> drawn;
    for (std::size_t draw = 0; draw < draws.count(); ++draw) {
        const PanelFigures figures = row.figures(draws.times(draw));
        for (std::size_t f = 0; f < kPanelFigures; ++f) drawn[f].push_back(figures[f]);
    }
    for (std::size_t f = 0; f < kPanelFigures; ++f)
        panel.ranges[f] = bootstrap_range(drawn[f], draws.places(), level);
    return panel;
}

// From strict to lenient along the upper envelope: what each setting adds to those that cry wolf less.
std::vector<Grade> envelope_grades(const TuningRows& rows, std::size_t i, PlaceTimes times) {
    std::vector<AlarmSum> sums;
    for (std::size_t setting = 0; setting < rows.settings(); ++setting)
        sums.push_back(rows.row(i, setting).sum(times));
    std::sort(sums.begin(), sums.end(), [](const AlarmSum& a, const AlarmSum& b) {
        return a.false_alarms != b.false_alarms ? a.false_alarms < b.false_alarms : a.told > b.told;
    });
    std::vector<Grade> grades;
    double told = 0.0;
    double cried = 0.0;
    for (const AlarmSum& sum : sums) {
        const double more = std::max(0.0, sum.told - told);
        if (more == 0.0 && sum.false_alarms == cried) continue;
        grades.push_back({more, sum.false_alarms - cried});
        told += more;
        cried = sum.false_alarms;
    }
    grades.push_back({sums.front().episodes - told, 0.0});
    return grades;
}

void add_area(const TuningRows& rows, std::size_t i, const PlaceDraws& draws, double level,
              AlarmConclusion& alarm) {
    alarm.area = graded_area(envelope_grades(rows, i, std::vector<int>(draws.places(), 1)));
    std::vector<double> areas;
    for (std::size_t draw = 0; draw < draws.count(); ++draw)
        areas.push_back(graded_area(envelope_grades(rows, i, draws.times(draw))).area);
    alarm.area_range = bootstrap_range(areas, draws.places(), level);
}

AlarmConclusion alarm_conclusion(const TuningRows& rows, std::size_t i, const ChosenSetting& chosen,
                                 const TuningOptions& options, const PlaceDraws& draws) {
    const std::vector<int> once(draws.places(), 1);
    AlarmConclusion alarm;
    alarm.alarm = rows.alarms()[i];
    std::vector<std::size_t> distinct;
    for (std::size_t setting = 0; setting < rows.settings(); ++setting) {
        const AlarmRow& row = rows.row(i, setting);
        alarm.sums.push_back(row.sum(once));
        alarm.figures.push_back(row.figures(once));
        // In a grid that other alarms are swept in, too, most settings say the same of this one.
        const auto twin = std::find_if(distinct.begin(), distinct.end(), [&](std::size_t other) {
            return same_tallies(rows.table(), other, setting, alarm.alarm);
        });
        if (twin != distinct.end()) {
            alarm.ranges.push_back(AlarmRanges(alarm.ranges[*twin]));
            continue;
        }
        distinct.push_back(setting);
        alarm.ranges.push_back(alarm_ranges(row, draws, options.level));
    }
    alarm.unbeaten = unbeaten(alarm.figures);
    add_area(rows, i, draws, options.level, alarm);
    const AlarmSum& sum = alarm.sums[chosen.setting];
    alarm.detection_wilson = wilson_range(sum.told, sum.episodes, options.level);
    alarm.effects = parameter_effects(rows.table(), alarm.figures, chosen.setting);
    return alarm;
}

}  // namespace

TuningChoice conclude_tuning(const TuneTable& table, const Parameters& present,
                             const TuningOptions& options) {
    TuningChoice choice;
    choice.options = options;
    choice.present = with_setting(table, 0, present);
    const PlaceDraws draws(table.on.size(), options.draws, options.seed);
    const std::vector<int> once(table.on.size(), 1);
    const TuningRows rows(table, alarms_moved(table));
    choice.chosen = choose_setting(rows, options, once);
    for (std::size_t i = 0; i < rows.alarms().size(); ++i)
        choice.alarms.push_back(alarm_conclusion(rows, i, choice.chosen, options, draws));
    for (std::size_t alarm = 0; alarm < static_cast<std::size_t>(kAlarms); ++alarm) {
        if (std::count(rows.alarms().begin(), rows.alarms().end(), alarm) > 0) continue;
        const AlarmRow row(table, 0, alarm);
        choice.still.push_back(
            {alarm, row.sum(once), row.figures(once), alarm_ranges(row, draws, options.level)});
    }
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting)
        choice.panel.push_back(panel_conclusion(table, setting, choice.present, draws, options.level));
    choice.by_day = cross_check(rows, LeftOut::day, choice.chosen, options, draws);
    choice.by_machine = cross_check(rows, LeftOut::machine, choice.chosen, options, draws);
    return choice;
}

}  // namespace podrate::sim
