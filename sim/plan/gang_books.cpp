#include "plan/gang_books.hpp"

#include <algorithm>

#include "replay/tallies.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kMinuteLongUs = 60 * kSecondUs;
// A log that ends that long before the others has ended.
constexpr TimeUs kLogLateUs = 2 * kMinuteLongUs;

// The last minute that had ended by then, or null.
const Minute* last_minute(const std::vector<Minute>& minutes, TimeUs time_us) {
    const std::int64_t number = time_us / kMinuteLongUs;
    const auto after = std::partition_point(minutes.begin(), minutes.end(),
                                            [number](const Minute& m) { return m.minute < number; });
    return after == minutes.begin() ? nullptr : &*(after - 1);
}

void cut_stretches(const std::vector<Stretch>& all, TimeUs now_us, MachineBooks& books) {
    for (const Stretch& stretch : all) {
        if (stretch.start_us >= now_us) break;
        books.stretches.push_back(stretch);
        books.stretches.back().end_us = std::min(stretch.end_us, now_us);
    }
    if (books.stretches.empty()) return;
    Stretch& last = books.stretches.back();
    if (now_us - last.end_us <= kLogLateUs) {
        last.end_us = now_us;
        return;
    }
    books.log_ended_us = last.end_us;
    Stretch silence;
    silence.start_us = last.end_us;
    silence.end_us = now_us;
    silence.kind = TimeKind::no_log;
    books.stretches.push_back(silence);
}

}  // namespace

double hopper_kg_at(const std::vector<Minute>& minutes, TimeUs time_us) {
    const Minute* at = last_minute(minutes, time_us);
    return at == nullptr ? 0.0 : at->mass_kg;
}

double delivered_kg_by(const std::vector<Minute>& minutes, TimeUs time_us) {
    const Minute* at = last_minute(minutes, time_us);
    if (at == nullptr) return 0.0;
    const Minute& first = minutes.front();
    return (at->harvested_kg - at->mass_kg) - (first.harvested_kg - first.mass_kg);
}

double GangBooks::delivered_t() const {
    double kg = 0.0;
    for (const MachineBooks& m : machines) kg += m.delivered_kg;
    return kg / 1e3;
}

double GangBooks::in_hoppers_t() const {
    double kg = 0.0;
    for (const MachineBooks& m : machines) kg += m.hopper_kg;
    return kg / 1e3;
}

TimeUs end_of_books_us(const DayResult& result) {
    return (result.last_us + kMinuteLongUs - 1) / kMinuteLongUs * kMinuteLongUs;
}

GangBooks books_until(const DayResult& result, TimeUs now_us) {
    GangBooks gang;
    gang.now_us = now_us / kMinuteLongUs * kMinuteLongUs;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        MachineBooks books;
        books.id = m.id;
        books.capacity_kg = static_cast<double>(m.parameters.hopper_capacity_kg);
        for (const Minute& minute : m.minutes) {
            if ((minute.minute + 1) * kMinuteLongUs <= gang.now_us) books.minutes.push_back(minute);
        }
        if (books.minutes.empty()) continue;
        cut_stretches(m.stretches, gang.now_us, books);
        books.hopper_kg = hopper_kg_at(books.minutes, gang.now_us);
        books.delivered_kg = delivered_kg_by(books.minutes, gang.now_us);
        gang.machines.push_back(std::move(books));
    }
    return gang;
}

}  // namespace podrate::sim
