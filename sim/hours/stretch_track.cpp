#include "hours/stretch_track.hpp"

#include <algorithm>

#include "replay/tallies.hpp"

namespace podrate::sim {
namespace {

constexpr auto kLongestGapUs = static_cast<TimeUs>(kLongestGapS * 1e6);

}  // namespace

void StretchTrack::see_place(const LogRow& row) {
    if (!row.holds(Column::lat_deg) || !row.holds(Column::lon_deg)) return;
    if (row[Column::lat_deg] == 0.0 && row[Column::lon_deg] == 0.0) return;
    placed_ = true;
    placed_us_ = row.time_us;
    place_ = {row[Column::lat_deg], row[Column::lon_deg]};
    if (stretches_.empty()) return;
    // A receiver that speaks late still places a stretch whose machine stands.
    Stretch& open = stretches_.back();
    if (open.place_known || row.time_us - open.start_us > kLongestGapUs) return;
    open.place_known = true;
    open.place = place_;
}

void StretchTrack::open(TimeUs start_us, TimeKind kind) {
    if (!stretches_.empty() && stretches_.back().kind == kind) return;
    Stretch stretch;
    stretch.start_us = start_us;
    stretch.end_us = start_us;
    stretch.kind = kind;
    stretch.place_known = placed_ && start_us - placed_us_ <= kLongestGapUs;
    stretch.place = place_;
    stretches_.push_back(stretch);
}

void StretchTrack::on_row(const LogRow& row, const Estimate& estimate) {
    const auto kg = static_cast<double>(estimate.harvested_kg);
    if (any_ && row.time_us > last_us_) {
        const bool gap = row.time_us - last_us_ > kLongestGapUs;
        open(last_us_, gap ? TimeKind::no_log : kind_of(last_));
        stretches_.back().end_us = row.time_us;
        if (!gap) stretches_.back().harvested_kg += kg - last_kg_;
    }
    see_place(row);
    any_ = true;
    last_us_ = row.time_us;
    last_ = estimate.state;
    last_kg_ = kg;
}

KindSeconds seconds_by_kind(const std::vector<Stretch>& stretches, TimeUs from_us, TimeUs to_us) {
    std::array<TimeUs, kTimeKinds> sum_us{};
    for (const Stretch& s : stretches) {
        const TimeUs part_us = std::min(s.end_us, to_us) - std::max(s.start_us, from_us);
        if (part_us > 0) sum_us[static_cast<std::size_t>(s.kind)] += part_us;
    }
    KindSeconds seconds{};
    for (std::size_t i = 0; i < kTimeKinds; ++i) seconds[i] = static_cast<double>(sum_us[i]) / 1e6;
    return seconds;
}

KindSeconds seconds_by_kind(const std::vector<Stretch>& stretches) {
    if (stretches.empty()) return {};
    return seconds_by_kind(stretches, stretches.front().start_us, stretches.back().end_us);
}

}  // namespace podrate::sim
