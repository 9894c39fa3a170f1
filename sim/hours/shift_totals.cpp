#include "hours/shift_totals.hpp"

#include <algorithm>

#include "day/local_time.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kMinuteUs = 60 * kSecondUs;

// Moments that begin a shift, after the first and up to the last. Zones are whole minutes from UTC, so
// minutes of the clock begin together everywhere.
std::vector<TimeUs> shift_cuts(const Day& day, TimeUs first_us, TimeUs last_us) {
    std::vector<TimeUs> cuts;
    const std::vector<int>& minutes = day.hours.shift_minutes;
    if (minutes.empty() || last_us - first_us > kMostShiftDays * 1440 * kMinuteUs) return cuts;
    for (TimeUs at = (first_us / kMinuteUs + 1) * kMinuteUs; at <= last_us; at += kMinuteUs) {
        const int minute = local_time(at, day.time_zone).second_of_day / 60;
        if (std::binary_search(minutes.begin(), minutes.end(), minute)) cuts.push_back(at);
    }
    return cuts;
}

// What stood at the end of the last minute that had ended by then; nothing before the log.
Minute minute_before(const std::vector<Minute>& minutes, TimeUs time_us) {
    const auto after =
        std::upper_bound(minutes.begin(), minutes.end(), time_us,
                         [](TimeUs t, const Minute& m) { return t < (m.minute + 1) * kMinuteUs; });
    return after == minutes.begin() ? Minute{} : *(after - 1);
}

ShiftMachine in_shift(const MachineResult& m, TimeUs from_us, TimeUs to_us) {
    ShiftMachine total;
    total.id = m.id;
    total.seconds = seconds_by_kind(m.stretches, from_us, to_us);
    const Minute before = minute_before(m.minutes, from_us);
    // The log's last minute has not ended when the log does.
    const bool to_the_end = to_us > m.last_us && !m.minutes.empty();
    const Minute after = to_the_end ? m.minutes.back() : minute_before(m.minutes, to_us);
    total.harvested_kg = after.harvested_kg - before.harvested_kg;
    total.area_m2 = after.area_m2 - before.area_m2;
    for (const Load& load : m.loads) {
        if (load.end_us < from_us || load.end_us >= to_us) continue;
        ++total.loads;
        total.tipped_kg += static_cast<double>(load.net_kg);
    }
    return total;
}

}  // namespace

std::vector<Shift> shifts_of(const Day& day, const DayResult& result) {
    std::vector<TimeUs> cuts = {result.first_us};
    const std::vector<TimeUs> between = shift_cuts(day, result.first_us, result.last_us);
    cuts.insert(cuts.end(), between.begin(), between.end());
    cuts.push_back(result.last_us + 1);
    std::vector<Shift> shifts;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        Shift shift{cuts[i], cuts[i + 1], {}};
        for (const MachineResult& m : result.machines) {
            if (m.usable) shift.machines.push_back(in_shift(m, shift.from_us, shift.to_us));
        }
        shifts.push_back(std::move(shift));
    }
    return shifts;
}

}  // namespace podrate::sim
