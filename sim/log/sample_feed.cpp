#include "log/sample_feed.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

// The core refuses NaN; a double too large for a float must reach it as a finite number that is out of range.
float narrowed(double value) {
    return static_cast<float>(std::clamp(value, -1e30, 1e30));
}

std::int32_t to_e7(double degrees) {
    return static_cast<std::int32_t>(std::llround(std::clamp(degrees, -200.0, 200.0) * 1e7));
}

}  // namespace

SampleFeed::SampleFeed(const std::string& file, const LogReader& reader, Problems& problems)
    : file_(file), problems_(problems) {
    if (reader.has(Column::hopper_kg)) {
        weights_[weight_count_++] = Column::hopper_kg;
        return;
    }
    for (const Column cell : {Column::cell1_kg, Column::cell2_kg, Column::cell3_kg, Column::cell4_kg}) {
        if (reader.has(cell)) weights_[weight_count_++] = cell;
    }
}

void SampleFeed::give(const Sample& sample, const LogRow& row, const char* what, Estimator& estimator) {
    if (estimator.feed(sample) == FeedResult::taken) return;
    problems_.add({file_, row.line, std::string(what) + " is outside what a viner can show",
                   "that value left out, the rest of the row used"});
}

void SampleFeed::feed_weight(const LogRow& row, Estimator& estimator) {
    Sample sample = weight_sample(row.time_us, 0.0F);
    sample.count = static_cast<std::uint8_t>(weight_count_);
    for (int i = 0; i < weight_count_; ++i) {
        if (!row.holds(weights_[i])) return;  // cells are summed only where all have spoken
        sample.value[i] = narrowed(row[weights_[i]]);
    }
    give(sample, row, "weight", estimator);
}

void SampleFeed::feed(const LogRow& row, Estimator& estimator) {
    const TimeUs t = row.time_us;
    if (row.holds(Column::pitch_deg) || row.holds(Column::roll_deg)) {
        give(tilt_sample(t, narrowed(row[Column::pitch_deg]), narrowed(row[Column::roll_deg])), row, "tilt",
             estimator);
    }
    if (row.holds(Column::lat_deg) && row.holds(Column::lon_deg)) {
        give(position_sample(t, to_e7(row[Column::lat_deg]), to_e7(row[Column::lon_deg])), row, "position",
             estimator);
    }
    if (row.holds(Column::heading_deg)) {
        give(heading_sample(t, narrowed(row[Column::heading_deg])), row, "heading", estimator);
    }
    if (row.holds(Column::speed_mps))
        give(speed_sample(t, narrowed(row[Column::speed_mps])), row, "speed", estimator);
    if (row.holds(Column::reel_on))
        give(reel_sample(t, row[Column::reel_on] > 0.5), row, "reel_on", estimator);
    feed_weight(row, estimator);
}

}  // namespace podrate::sim
