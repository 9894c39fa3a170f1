#include "report/estimates_csv.hpp"

#include "log/number.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kFlushBytes = std::size_t{1} << 16;

}  // namespace

std::string fault_names(std::uint8_t faults) {
    std::string names;
    for (int i = 0; i < kFaults; ++i) {
        if ((faults & (1 << i)) == 0) continue;
        if (!names.empty()) names += '|';
        names += name_of_fault(i);
    }
    return names;
}

EstimatesCsv::EstimatesCsv(const std::filesystem::path& folder, const std::string& machine)
    : file_(folder / ("estimates_" + machine + ".csv")),
      yields_file_(folder / ("yields_" + machine + ".csv")) {
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
}

void EstimatesCsv::on_row(const LogRow& row, const Estimate& e) {
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
    pending_ += fault_names(e.faults);
    pending_ += '\n';
    if (row.time_us >= next_yield_us_) {
        next_yield_us_ = (row.time_us / kSecondUs + 1) * kSecondUs;
        append_fixed(yields_, static_cast<double>(row.time_us) / 1e6, 3);
        yields_ += ',';
        append_fixed(yields_, static_cast<double>(e.yield_kgpm2), 5);
        yields_ += ',';
        append_fixed(yields_, static_cast<double>(e.yield_sd_kgpm2), 5);
        yields_ += '\n';
    }
    if (pending_.size() > kFlushBytes) flush();
}

void EstimatesCsv::finish() {
    flush();
    file_.commit();
    yields_file_.commit();
}

}  // namespace podrate::sim
