#include "series/series_recorder.hpp"

#include <algorithm>
#include <limits>

namespace podrate::ui {
namespace {

struct LoggedChannel {
    sim::Column column;
    Measure measure;
};

constexpr LoggedChannel kLogged[] = {
    {sim::Column::speed_mps, Measure::speed},     {sim::Column::cell1_kg, Measure::cell_1},
    {sim::Column::cell2_kg, Measure::cell_2},     {sim::Column::cell3_kg, Measure::cell_3},
    {sim::Column::cell4_kg, Measure::cell_4},     {sim::Column::hopper_kg, Measure::weight},
    {sim::Column::pitch_deg, Measure::pitch},     {sim::Column::roll_deg, Measure::roll},
    {sim::Column::heading_deg, Measure::heading}, {sim::Column::drum_rpm, Measure::drum_speed},
};

constexpr TimeUs kToldApartUs = kSecondUs / 2;
constexpr double kFarthest = 1e30;  // a log's number may be larger than a float holds

}  // namespace

SeriesRecorder::SeriesRecorder(MachineSeries& to, const std::atomic<bool>& cancel)
    : to_(to), cancel_(cancel) {
    to_.columns.clear();
    for (int i = 0; i < kMeasures; ++i) to_.columns.emplace_back(static_cast<Measure>(i));
}

bool SeriesRecorder::asks_all(const sim::LogRow& row) const {
    return row.time_us - told_us_ >= kToldApartUs && keeps(row);
}

void SeriesRecorder::on_row(const sim::LogRow& row, const Estimate& estimate) {
    if (cancel_.load(std::memory_order_relaxed)) throw LoadCancelled{};
    if (to_.origin_us == 0) to_.origin_us = row.time_us / 1000 * 1000;
    const TimeUs since_ms = (row.time_us - to_.origin_us) / 1000;
    if (since_ms > std::numeric_limits<Millis>::max()) {
        ++to_.rows_left_out;
        return;
    }
    now_ms_ = static_cast<Millis>(since_ms);
    kept_ = keeps(row);
    if (kept_) {
        to_.kept_ms.push_back(now_ms_);
        add_estimates(estimate);
        if (asks_all(row)) add_told(estimate);
    }
    add_channels(row);
    add_hits(row);
}

void SeriesRecorder::add_channels(const sim::LogRow& row) {
    for (const LoggedChannel& logged : kLogged) {
        if (row.holds(logged.column))
            add(logged.measure, std::clamp(row[logged.column], -kFarthest, kFarthest));
    }
    if (row.holds(sim::Column::reel_on))
        step(StepMeasure::reel).add(now_ms_, row[sim::Column::reel_on] > 0.5 ? 1 : 0);
}

// The log counts up; a counter that falls has been set back and begins anew.
void SeriesRecorder::add_hits(const sim::LogRow& row) {
    if (!row.holds(sim::Column::loss_hits)) return;
    const double count = row[sim::Column::loss_hits];
    if (hits_known_ && row.time_us == hits_us_) return;
    if (hits_known_ && count >= hits_) {
        const double span_s = static_cast<double>(row.time_us - hits_us_) / 1e6;
        add(Measure::hit_rate, std::min((count - hits_) / span_s, kFarthest));
    }
    hits_known_ = true;
    hits_ = count;
    hits_us_ = row.time_us;
}

void SeriesRecorder::add_with_sd(Measure measure, Real value, Real sd) {
    add(measure, static_cast<double>(value));
    column(measure).sd.push_back(static_cast<float>(sd));
}

void SeriesRecorder::add_ranged(Measure measure, Real value, Real low, Real high) {
    add(measure, static_cast<double>(value));
    column(measure).low.push_back(static_cast<float>(low));
    column(measure).high.push_back(static_cast<float>(high));
}

// Yield and loss cost as much as all the rest; nobody sees them change faster.
void SeriesRecorder::add_told(const Estimate& e) {
    told_us_ = e.time_us;
    add(Measure::area, static_cast<double>(e.area_m2));
    add_with_sd(Measure::yield, e.yield_kgpm2, e.yield_sd_kgpm2);
    add_ranged(Measure::loss, e.loss_share, e.loss_low, e.loss_high);
    add_ranged(Measure::drum_loss, e.drum_loss_share, e.drum_loss_low, e.drum_loss_high);
    add_ranged(Measure::picking_loss, e.picking_loss_share, e.picking_loss_low, e.picking_loss_high);
    if (e.advice.binding != Binding::unsure)
        add_ranged(Measure::right_speed, e.advice.speed.speed_mps, e.advice.speed.low_mps,
                   e.advice.speed.high_mps);
}

void SeriesRecorder::add_estimates(const Estimate& e) {
    add_with_sd(Measure::load_rate, e.flow_kgps, e.flow_sd_kgps);
    add_with_sd(Measure::hopper, e.mass_kg, e.mass_sd_kg);
    add_with_sd(Measure::harvested, e.harvested_kg, e.harvested_sd_kg);
    add(Measure::level, static_cast<double>(e.level_share));
    step(StepMeasure::state).add(now_ms_, static_cast<std::uint16_t>(e.state));
    step(StepMeasure::alarms).add(now_ms_, e.alarms);
    step(StepMeasure::faults).add(now_ms_, e.faults);
}

void SeriesRecorder::finish() {
    to_.kept_ms.shrink_to_fit();
    std::erase_if(to_.columns, [](const Column& one) { return one.value.empty(); });
    for (Column& one : to_.columns) {
        if (cancel_.load(std::memory_order_relaxed)) throw LoadCancelled{};
        one.seal(to_.kept_ms);
    }
}

}  // namespace podrate::ui
