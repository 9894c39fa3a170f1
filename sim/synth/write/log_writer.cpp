#include "synth/write/log_writer.hpp"

#include <zstd.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "log/number.hpp"

namespace podrate::sim {
namespace {

constexpr int kLevel = 19;

// Whether all times are whole tenths of a second.
bool tenths_do(const ScenarioSenses& senses) {
    const double steps = 10.0 / senses.rate_hz;
    return senses.jitter_s <= 0.0 && std::abs(steps - std::round(steps)) < 1e-9;
}

}  // namespace

LogWriter::LogWriter(const Scenario& scenario, const ScenarioMachine& machine)
    : frame_(scenario.origin),
      faults_(scenario.faults, machine.id),
      start_unix_s_(static_cast<double>(scenario.start_unix_s)),
      rows_per_second_(std::max(1L, std::lround(machine.senses.rate_hz))),
      rows_per_fifth_(std::max(1L, std::lround(machine.senses.rate_hz / 5.0))),
      time_decimals_(tenths_do(machine.senses) ? 1 : 3),
      cells_apart_(machine.cells_apart),
      counts_loss_(machine.hits.per_kg > 0.0) {
    text_ = "unix_s,speed_mps,";
    if (cells_apart_) {
        for (int cell = 1; cell <= static_cast<int>(machine.scale.cells); ++cell)
            text_ += "cell" + std::to_string(cell) + "_kg,";
    } else {
        text_ += "hopper_kg,";
    }
    text_ += "pitch_deg,roll_deg,lat_deg,lon_deg,heading_deg,reel_on";
    text_ += counts_loss_ ? ",loss_hits\n" : "\n";
}

std::string LogWriter::row_of(double time_s, const VinerTruth& truth, const Sensors& sensors) {
    std::string row;
    const bool second = row_ % rows_per_second_ == 0;
    const bool fifth = row_ % rows_per_fifth_ == 0;
    const bool reel = second || !reel_told_ || truth.reel_on != last_reel_;
    const auto cell = [&row](bool given, double value, int decimals, char after) {
        if (given) append_fixed(row, value, decimals);
        row += after;
    };
    const bool placed = second && sensors.place_known();
    const LatLon place = placed ? frame_.to_lat_lon(sensors.place()) : LatLon{};
    const ScenarioFault* jump = faults_.begun(FaultKind::clock_jump, time_s);
    cell(true, start_unix_s_ + time_s + (jump != nullptr ? jump->size : 0.0), time_decimals_, ',');
    cell(fifth, sensors.speed_mps(), 2, ',');
    if (cells_apart_) {
        for (int i = 0; i < sensors.scale().cells(); ++i) cell(true, sensors.scale().cell_kg(i), 1, ',');
    } else {
        cell(true, sensors.scale().sum_kg(), 1, ',');
    }
    cell(fifth, sensors.pitch_deg(), 1, ',');
    cell(fifth, sensors.roll_deg(), 1, ',');
    cell(placed, place.lat_deg, 7, ',');
    cell(placed, place.lon_deg, 7, ',');
    cell(placed, sensors.heading_deg(), 1, ',');
    cell(reel, truth.reel_on ? 1.0 : 0.0, 0, counts_loss_ ? ',' : '\n');
    if (counts_loss_) cell(fifth, static_cast<double>(sensors.loss_hits()), 0, '\n');
    reel_told_ = true;
    last_reel_ = truth.reel_on;
    ++row_;
    return row;
}

void LogWriter::add(double time_s, const VinerTruth& truth, const Sensors& sensors) {
    const std::string row = row_of(time_s, truth, sensors);
    if (cut_ || faults_.active(FaultKind::rows_dropped, time_s) != nullptr) return;
    if (faults_.begun(FaultKind::log_cut, time_s) != nullptr) {
        text_ += row.substr(0, row.size() / 2);
        cut_ = true;
        return;
    }
    if (faults_.active(FaultKind::rows_swapped, time_s) != nullptr && held_back_.empty()) {
        held_back_ = row;
        return;
    }
    text_ += row + held_back_;
    held_back_.clear();
    if (faults_.active(FaultKind::rows_doubled, time_s) != nullptr) text_ += row;
}

TruthWriter::TruthWriter(const Scenario& scenario)
    : start_unix_s_(static_cast<double>(scenario.start_unix_s)),
      apart_(scenario.truth_apart),
      swath_(scenario.truth_swath) {
    text_ =
        "unix_s,mass_kg,flow_kgps,standing_kgpm2,loss_share,state,area_rate_m2ps,field,east_m,north_m,speed_"
        "mps,"
        "feed_kgps";
    if (apart_) text_ += ",drum_loss_share";
    text_ += swath_ ? ",cut_m2,cut_kg\n" : "\n";
}

void TruthWriter::add(double time_s, const VinerTruth& truth) {
    append_fixed(text_, start_unix_s_ + time_s, 1);
    for (const auto& [value, decimals] :
         {std::pair{truth.mass_kg, 2}, std::pair{truth.flow_kgps, 5}, std::pair{truth.standing_kgpm2, 4},
          std::pair{truth.loss_share, 5}}) {
        text_ += ',';
        append_fixed(text_, value, decimals);
    }
    text_ += ',';
    text_ += name_of(truth.state);
    text_ += ',';
    append_fixed(text_, truth.area_rate_m2ps, 4);
    text_ += ',' + std::to_string(truth.field) + ',';
    append_fixed(text_, truth.pose.place.east_m, 2);
    text_ += ',';
    append_fixed(text_, truth.pose.place.north_m, 2);
    text_ += ',';
    append_fixed(text_, truth.speed_mps, 4);
    text_ += ',';
    append_fixed(text_, truth.feed_kgps, 4);
    if (apart_) {
        text_ += ',';
        append_fixed(text_, truth.drum_loss_share, 5);
    }
    if (swath_) {
        text_ += ',';
        append_fixed(text_, truth.area_m2, 3);
        text_ += ',';
        append_fixed(text_, truth.cut_kg, 4);
    }
    text_ += '\n';
}

std::string compressed(const std::string& text) {
    std::string packed(ZSTD_compressBound(text.size()), '\0');
    const std::size_t size = ZSTD_compress(packed.data(), packed.size(), text.data(), text.size(), kLevel);
    if (ZSTD_isError(size) != 0) throw std::runtime_error(std::string("zstd: ") + ZSTD_getErrorName(size));
    packed.resize(size);
    return packed;
}

}  // namespace podrate::sim
