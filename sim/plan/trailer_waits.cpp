#include "plan/trailer_waits.hpp"

#include <algorithm>
#include <map>

#include "hours/work_pace.hpp"
#include "plan/day_parts.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kHourUs = 3600 * kSecondUs;

TrailerWaits waits_of(const MachineResult& machine, const std::vector<Tip>& tips) {
    TrailerWaits waits;
    waits.machine = machine.id;
    waits.tips = tips.size();
    const WorkPace pace(machine.stretches);
    for (const Tip& tip : tips) {
        waits.waited_s += tip.wait_s;
        waits.longest_s = std::max(waits.longest_s, tip.wait_s);
        const TimeUs end_us = tip.start_us + static_cast<TimeUs>(1e6 * tip.wait_s);
        waits.forgone_kg += tip.wait_s * pace.kgps_about(tip.start_us, end_us).value_or(0.0);
    }
    if (tips.size() > 1) {
        const double span_s = static_cast<double>(tips.back().start_us - tips.front().start_us) / 1e6;
        waits.cycle_s = span_s / static_cast<double>(tips.size() - 1);
    }
    return waits;
}

std::vector<std::vector<Tip>> tips_of(const DayResult& result) {
    const GangBooks books = books_until(result, end_of_books_us(result));
    std::vector<std::vector<Tip>> tips;
    for (const MachineBooks& m : books.machines) tips.push_back(parts_of(m).tips);
    return tips;
}

}  // namespace

std::vector<TrailerWaits> trailer_waits(const DayResult& result) {
    const std::vector<std::vector<Tip>> tips = tips_of(result);
    std::vector<TrailerWaits> waits;
    for (const MachineResult& m : result.machines) {
        if (m.usable && !m.minutes.empty()) waits.push_back(waits_of(m, tips[waits.size()]));
    }
    return waits;
}

std::vector<HourWaits> waits_by_hour(const DayResult& result) {
    const std::vector<std::vector<Tip>> tips = tips_of(result);
    std::map<TimeUs, HourWaits> hours;
    for (std::size_t i = 0; i < tips.size(); ++i) {
        for (const Tip& tip : tips[i]) {
            HourWaits& hour = hours[tip.start_us / kHourUs];
            hour.start_us = tip.start_us / kHourUs * kHourUs;
            hour.waited_s.resize(tips.size());
            hour.waited_s[i] += tip.wait_s;
        }
    }
    std::vector<HourWaits> list;
    for (auto& [number, hour] : hours) list.push_back(std::move(hour));
    return list;
}

}  // namespace podrate::sim
