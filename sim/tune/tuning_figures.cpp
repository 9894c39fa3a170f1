#include "tune/tuning_figures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string_view>

namespace podrate::sim {
namespace {

constexpr double kNotTold = std::numeric_limits<double>::quiet_NaN();

double share_of(double part, double whole) {
    return whole > 0.0 ? part / whole : kNotTold;
}

// 0 low, 1 medium, 2 high.
std::size_t priority_of_alarm(const Parameters& parameters, std::size_t alarm) {
    const std::string name = std::string(name_of(static_cast<AlarmId>(alarm))) + "_priority";
    for (const ParameterInfo& info : kParameterTable) {
        if (name != info.name) continue;
        const auto told = static_cast<double>(parameters.*info.member);
        return told > 1.5 ? 2 : (told > 0.5 ? 1 : 0);
    }
    return 0;
}

bool same_tally(const AlarmTally& a, const AlarmTally& b) {
    return a.episodes == b.episodes && a.told == b.told && a.delays_s == b.delays_s && a.alarms == b.alarms &&
           a.false_alarms == b.false_alarms && a.chattered == b.chattered && a.in_alarm_s == b.in_alarm_s &&
           a.idle_s == b.idle_s && a.judged_h == b.judged_h && a.known_h == b.known_h;
}

}  // namespace

void AlarmSum::add(const AlarmTally& tally, double times) {
    episodes += times * tally.episodes;
    told += times * tally.told;
    alarms += times * tally.alarms;
    false_alarms += times * tally.false_alarms;
    chattered += times * tally.chattered;
    in_alarm_s += times * tally.in_alarm_s;
    idle_s += times * tally.idle_s;
    judged_h += times * tally.judged_h;
    known_h += times * tally.known_h;
}

AlarmRow::AlarmRow(const TuneTable& table, const std::vector<std::size_t>& setting_of, std::size_t alarm) {
    for (std::size_t place = 0; place < table.on.size(); ++place) {
        const AlarmTally& tally = table.tallies[setting_of[place]][place].alarms[alarm];
        tallies_.push_back(&tally);
        for (const float delay : tally.delays_s) delays_.push_back({delay, place});
    }
    std::stable_sort(delays_.begin(), delays_.end(),
                     [](const Delay& a, const Delay& b) { return a.s < b.s; });
}

AlarmRow::AlarmRow(const TuneTable& table, std::size_t setting, std::size_t alarm)
    : AlarmRow(table, std::vector<std::size_t>(table.on.size(), setting), alarm) {}

AlarmSum AlarmRow::sum(PlaceTimes times) const {
    AlarmSum all;
    for (std::size_t place = 0; place < tallies_.size(); ++place) {
        if (times[place] != 0) all.add(*tallies_[place], times[place]);
    }
    return all;
}

double AlarmRow::delay_s(double p, PlaceTimes times) const {
    long count = 0;
    for (const Delay& delay : delays_) count += times[delay.place];
    if (count == 0) return kNotTold;
    const double wanted = p * static_cast<double>(count);
    long passed = 0;
    for (std::size_t i = 0; i < delays_.size(); ++i) {
        passed += times[delays_[i].place];
        const double off = static_cast<double>(passed) - wanted;
        if (off < -1e-9) continue;
        if (off > 1e-9) return static_cast<double>(delays_[i].s);
        std::size_t next = i + 1;
        while (next < delays_.size() && times[delays_[next].place] == 0) ++next;
        if (next == delays_.size()) return static_cast<double>(delays_[i].s);
        return 0.5 * (static_cast<double>(delays_[i].s) + static_cast<double>(delays_[next].s));
    }
    return kNotTold;
}

AlarmFigures AlarmRow::figures(PlaceTimes times) const {
    const AlarmSum all = sum(times);
    return {share_of(all.told, all.episodes),
            delay_s(0.5, times),
            delay_s(0.9, times),
            share_of(all.false_alarms, all.known_h),
            share_of(all.alarms, all.judged_h),
            share_of(all.chattered, all.alarms),
            share_of(all.in_alarm_s / 3600.0, all.judged_h),
            share_of(all.idle_s / 3600.0, all.known_h)};
}

PanelRow::PanelRow(const TuneTable& table, std::size_t setting, const Parameters& parameters) {
    const Parameters set = with_setting(table, setting, parameters);
    std::array<std::size_t, kAlarms> priority{};
    for (std::size_t alarm = 0; alarm < priority.size(); ++alarm)
        priority[alarm] = priority_of_alarm(set, alarm);
    for (const MachineDayTally& tally : table.tallies[setting]) {
        Day& day = days_.emplace_back();
        day.panel = tally.panel;
        for (std::size_t alarm = 0; alarm < priority.size(); ++alarm)
            day.by_priority[priority[alarm]] += tally.alarms[alarm].alarms;
    }
}

PanelFigures PanelRow::figures(PlaceTimes times) const {
    double alarms = 0.0;
    double tens = 0.0;
    double over_one = 0.0;
    double over_two = 0.0;
    double flood = 0.0;
    double work_h = 0.0;
    std::array<double, 3> shown{};
    for (std::size_t place = 0; place < days_.size(); ++place) {
        const Day& day = days_[place];
        const double count = times[place];
        alarms += count * day.panel.alarms;
        tens += count * day.panel.tens;
        over_one += count * day.panel.tens_over_one;
        over_two += count * day.panel.tens_over_two;
        flood += count * day.panel.tens_in_flood;
        work_h += count * day.panel.work_h;
        for (std::size_t p = 0; p < shown.size(); ++p) shown[p] += count * day.by_priority[p];
    }
    const double all = shown[0] + shown[1] + shown[2];
    return {share_of(alarms, 6.0 * work_h), share_of(over_one, tens), share_of(over_two, tens),
            share_of(flood, tens),          share_of(shown[0], all),  share_of(shown[1], all),
            share_of(shown[2], all)};
}

int most_in_ten(const TuneTable& table, std::size_t setting) {
    int most = 0;
    for (const MachineDayTally& day : table.tallies[setting]) most = std::max(most, day.panel.most_in_ten);
    return most;
}

Parameters with_setting(const TuneTable& table, std::size_t setting, Parameters parameters) {
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        if (std::isnan(table.settings[setting].values[i])) continue;
        for (const ParameterInfo& info : kParameterTable) {
            if (table.parameters[i] == info.name)
                parameters.*info.member = static_cast<Real>(table.settings[setting].values[i]);
        }
    }
    return parameters;
}

bool same_tallies(const TuneTable& table, std::size_t a, std::size_t b, std::size_t alarm) {
    for (std::size_t place = 0; place < table.on.size(); ++place) {
        if (!same_tally(table.tallies[a][place].alarms[alarm], table.tallies[b][place].alarms[alarm]))
            return false;
    }
    return true;
}

std::vector<std::size_t> alarms_moved(const TuneTable& table) {
    std::vector<std::size_t> moved;
    for (std::size_t alarm = 0; alarm < static_cast<std::size_t>(kAlarms); ++alarm) {
        for (std::size_t setting = 1; setting < table.settings.size(); ++setting) {
            if (same_tallies(table, 0, setting, alarm)) continue;
            moved.push_back(alarm);
            break;
        }
    }
    return moved;
}

}  // namespace podrate::sim
