#include "report/estimates_csv.hpp"

#include "log/number.hpp"
#include "replay/alarm_log.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kFlushBytes = std::size_t{1} << 16;

}  // namespace

EstimatesCsv::EstimatesCsv(const std::filesystem::path& folder, const std::string& machine)
    : file_(folder / ("estimates_" + machine + ".csv")),
      yields_file_(folder / ("yields_" + machine + ".csv")),
      losses_file_(folder / ("losses_" + machine + ".csv")) {
    losses_ =
        "unix_s,drum_loss_share,drum_loss_low,drum_loss_high,picking_loss_share,picking_loss_low,"
        "picking_loss_high,ground_kgpm2,speed_advised_mps,speed_low_mps,speed_high_mps,binding\n";
    yields_ = "unix_s,yield_kgpm2,yield_sd_kgpm2\n";
    pending_ =
        "unix_s,mass_kg,mass_sd_kg,flow_kgps,flow_sd_kgps,yield_kgpm2,loss_share,loss_low,loss_high,state,"
        "alarms\n";
}

void EstimatesCsv::flush() {
    file_.write(pending_);
    pending_.clear();
    yields_file_.write(yields_);
    yields_.clear();
    losses_file_.write(losses_);
    losses_.clear();
}

void EstimatesCsv::add_losses(const LogRow& row, const Estimate& e) {
    const auto add = [this](Real value) {
        losses_ += ',';
        append_fixed(losses_, static_cast<double>(value), 5);
    };
    append_fixed(losses_, static_cast<double>(row.time_us) / 1e6, 3);
    add(e.drum_loss_share);
    add(e.drum_loss_low);
    add(e.drum_loss_high);
    add(e.picking_loss_share);
    add(e.picking_loss_low);
    add(e.picking_loss_high);
    add(e.ground_kgpm2);
    if (e.advice.speed.known) {
        add(e.advice.speed.speed_mps);
        add(e.advice.speed.low_mps);
        add(e.advice.speed.high_mps);
    } else {
        losses_ += ",,,";
    }
    losses_ += ',';
    losses_ += name_of(e.advice.binding);
    losses_ += '\n';
}

void EstimatesCsv::on_row(const LogRow& row, const Estimate& e) {
    if (row.lone && !row.holds_weight()) return;
    const auto add = [this](Real value, int decimals) {
        append_fixed(pending_, static_cast<double>(value), decimals);
        pending_ += ',';
    };
    append_fixed(pending_, static_cast<double>(row.time_us) / 1e6, 3);
    pending_ += ',';
    add(e.mass_kg, 2);
    add(e.mass_sd_kg, 3);
    add(e.flow_kgps, 5);
    add(e.flow_sd_kgps, 5);
    add(e.yield_kgpm2, 5);
    add(e.loss_share, 5);
    add(e.loss_low, 5);
    add(e.loss_high, 5);
    pending_ += name_of(e.state);
    pending_ += ',';
    pending_ += alarm_names(e.alarms, e.faults);
    pending_ += '\n';
    if (row.time_us >= next_yield_us_) {
        next_yield_us_ = (row.time_us / kSecondUs + 1) * kSecondUs;
        append_fixed(yields_, static_cast<double>(row.time_us) / 1e6, 3);
        yields_ += ',';
        append_fixed(yields_, static_cast<double>(e.yield_kgpm2), 5);
        yields_ += ',';
        append_fixed(yields_, static_cast<double>(e.yield_sd_kgpm2), 5);
        yields_ += '\n';
        add_losses(row, e);
    }
    if (pending_.size() > kFlushBytes) flush();
}

void EstimatesCsv::finish() {
    flush();
    file_.commit();
    yields_file_.commit();
    losses_file_.commit();
}

}  // namespace podrate::sim
