// Tables of a sweep made by hand or drawn from a seed.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "plan/path_random.hpp"
#include "tune/tally.hpp"

namespace podrate::test {

inline constexpr auto kLossHigh = static_cast<std::size_t>(AlarmId::loss_high);
inline constexpr auto kRateLow = static_cast<std::size_t>(AlarmId::rate_low);

inline sim::AlarmTally alarm_tally(int episodes, std::vector<float> delays_s, int alarms, int false_alarms,
                                   double judged_h) {
    sim::AlarmTally tally;
    tally.episodes = episodes;
    tally.told = static_cast<int>(delays_s.size());
    tally.delays_s = std::move(delays_s);
    tally.alarms = alarms;
    tally.false_alarms = false_alarms;
    tally.judged_h = judged_h;
    tally.known_h = judged_h;
    return tally;
}

// Days d1, d2, ... of machines m1, m2, ..., all of them.
inline std::vector<sim::TunedOn> days_of_machines(int days, int machines) {
    std::vector<sim::TunedOn> on;
    for (int d = 1; d <= days; ++d) {
        for (int m = 1; m <= machines; ++m) on.push_back({"d" + std::to_string(d), "m" + std::to_string(m)});
    }
    return on;
}

// A loss alarm that is swept over limits and on-delays, as a plant might give it: episodes have heights and
// lengths, noise has peaks of its own. A stricter limit or a longer delay tells less and cries wolf less.
// The first setting is limit 0.10 after 6 s.
inline sim::TuneTable loss_sweep(int days, int machines, std::uint64_t seed, double noise_per_h = 3.0) {
    sim::TuneTable table;
    table.parameters = {"loss_high_share", "loss_high_on_s"};
    table.on = days_of_machines(days, machines);
    table.settings.push_back({{0.10, 6.0}});
    for (const double limit : {0.08, 0.10, 0.12, 0.15, 0.20}) {
        for (const double on_s : {2.0, 6.0, 12.0, 30.0}) {
            if (limit != 0.10 || on_s != 6.0) table.settings.push_back({{limit, on_s}});
        }
    }
    table.tallies.assign(table.settings.size(), std::vector<sim::MachineDayTally>(table.on.size()));
    constexpr double kHours = 9.0;
    for (std::size_t place = 0; place < table.on.size(); ++place) {
        sim::PathRandom random(seed, place, 0);
        struct Peak {
            double height;
            double length_s;
            bool real;
        };
        std::vector<Peak> peaks;
        const double busy = 0.6 + 0.8 * random.uniform();  // a day is quieter than another
        for (double h = random.exponential(1.5); h < kHours; h += random.exponential(1.5))
            peaks.push_back({0.13 + 0.15 * random.uniform(), 20.0 + random.exponential(200.0), true});
        for (double h = random.exponential(1.0 / (busy * noise_per_h)); h < kHours;
             h += random.exponential(1.0 / (busy * noise_per_h)))
            peaks.push_back({0.05 + random.exponential(0.03), random.exponential(6.0), false});
        for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
            const double limit = table.settings[setting].values[0];
            const double on_s = table.settings[setting].values[1];
            sim::MachineDayTally& day = table.tallies[setting][place];
            sim::AlarmTally& tally = day.alarms[kLossHigh];
            tally.judged_h = kHours;
            tally.known_h = kHours;
            for (const Peak& peak : peaks) {
                const double rise_s = 40.0 * limit;
                if (peak.real) ++tally.episodes;
                if (peak.height < limit || peak.length_s < on_s + (peak.real ? rise_s : 0.0)) continue;
                ++tally.alarms;
                tally.in_alarm_s += peak.length_s - on_s;
                if (peak.real) {
                    ++tally.told;
                    tally.delays_s.push_back(static_cast<float>(on_s + rise_s));
                } else {
                    ++tally.false_alarms;
                    if (on_s < 3.0) ++tally.chattered;
                }
            }
            sim::AlarmTally& rate = day.alarms[kRateLow];  // that the sweep does not move
            rate = alarm_tally(2, {60.0F}, 3, 1, kHours);
            day.panel.work_h = kHours;
            day.panel.tens = 54;
            day.panel.alarms = tally.alarms + rate.alarms;
            day.panel.tens_over_one = std::min(day.panel.alarms / 3, 54);
            day.panel.tens_over_two = day.panel.alarms / 8;
            day.panel.tens_in_flood = day.panel.alarms > 60 ? 1 : 0;
            day.panel.most_in_ten = 2 + day.panel.alarms / 20;
        }
    }
    return table;
}

}  // namespace podrate::test
