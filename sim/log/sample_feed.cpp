#include "log/sample_feed.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr TimeUs kCellHoldUs = kSecondUs / 2;
constexpr double kSpeedNoiseMps = 0.3;  // a standing machine's speed may be read as a little below zero

// The core refuses NaN; a double too large for a float must reach it as a finite number that is out of range.
float narrowed(double value) {
    return static_cast<float>(std::clamp(value, -1e30, 1e30));
}

std::int32_t to_e7(double degrees) {
    return static_cast<std::int32_t>(std::llround(std::clamp(degrees, -200.0, 200.0) * 1e7));
}

}  // namespace

SampleFeed::SampleFeed(const std::string& file, const LogReader& reader, Problems& problems)
    : file_(file), problems_(problems), has_hopper_(reader.has(Column::hopper_kg)) {
    for (const Column cell : {Column::cell1_kg, Column::cell2_kg, Column::cell3_kg, Column::cell4_kg}) {
        if (reader.has(cell)) cells_[cell_count_++].column = cell;
    }
}

void SampleFeed::give(const Sample& sample, const LogRow& row, const char* what, const SampleTaker& take) {
    if (take(sample) == FeedResult::taken) return;
    problems_.add({file_, row.line, std::string(what) + " is outside what a viner can show",
                   "that value left out, the rest of the row used"});
}

void SampleFeed::feed_cells(const LogRow& row, const SampleTaker& take) {
    bool any = false;
    bool all = true;
    Sample sample = weight_sample(row.time_us, 0.0F);
    sample.count = static_cast<std::uint8_t>(cell_count_);
    for (int i = 0; i < cell_count_; ++i) {
        Cell& cell = cells_[i];
        if (row.holds(cell.column)) {
            cell.known = true;
            cell.time_us = row.time_us;
            cell.kg = narrowed(row[cell.column]);
            any = true;
        }
        all = all && cell.known && row.time_us - cell.time_us <= kCellHoldUs;
        sample.value[i] = cell.kg;
    }
    if (!any || !all) return;
    source_ = Source::cells;
    give(sample, row, "weight", take);
}

void SampleFeed::feed_weight(const LogRow& row, const SampleTaker& take) {
    if (has_hopper_ && source_ != Source::cells && row.holds(Column::hopper_kg)) {
        source_ = Source::hopper;
        give(weight_sample(row.time_us, narrowed(row[Column::hopper_kg])), row, "weight", take);
    }
    if (cell_count_ > 0 && source_ != Source::hopper) feed_cells(row, take);
}

void SampleFeed::feed_place(const LogRow& row, const SampleTaker& take) {
    if (!row.holds(Column::lat_deg) || !row.holds(Column::lon_deg)) return;
    const double lat_deg = row[Column::lat_deg];
    const double lon_deg = row[Column::lon_deg];
    if (lat_deg == 0.0 && lon_deg == 0.0) return;  // what receivers write while they have no fix
    give(position_sample(row.time_us, to_e7(lat_deg), to_e7(lon_deg)), row, "position", take);
}

void SampleFeed::feed_speed(const LogRow& row, const SampleTaker& take) {
    if (!row.holds(Column::speed_mps)) return;
    double speed_mps = row[Column::speed_mps];
    if (speed_mps < 0.0 && speed_mps > -kSpeedNoiseMps) speed_mps = 0.0;
    give(speed_sample(row.time_us, narrowed(speed_mps)), row, "speed", take);
}

// The log counts up; a counter that falls has been set back and begins anew.
void SampleFeed::feed_hits(const LogRow& row, const SampleTaker& take) {
    if (!row.holds(Column::loss_hits)) return;
    const double count = row[Column::loss_hits];
    const double new_hits = hits_known_ && count >= hits_ ? count - hits_ : 0.0;
    hits_known_ = true;
    hits_ = count;
    give(hits_sample(row.time_us, narrowed(new_hits)), row, "loss_hits", take);
}

void SampleFeed::feed(const LogRow& row, const SampleTaker& take) {
    const TimeUs t = row.time_us;
    if (row.holds(Column::pitch_deg) || row.holds(Column::roll_deg)) {
        give(tilt_sample(t, narrowed(row[Column::pitch_deg]), narrowed(row[Column::roll_deg])), row, "tilt",
             take);
    }
    feed_place(row, take);
    if (row.holds(Column::heading_deg)) {
        give(heading_sample(t, narrowed(row[Column::heading_deg])), row, "heading", take);
    }
    feed_speed(row, take);
    if (row.holds(Column::reel_on)) give(reel_sample(t, row[Column::reel_on] > 0.5), row, "reel_on", take);
    feed_hits(row, take);
    feed_weight(row, take);
}

}  // namespace podrate::sim
