#include "maps/loss_by_rate.hpp"

#include <algorithm>

namespace podrate::sim {
namespace {

constexpr double kRateStepKgps = 0.05;
constexpr std::size_t kRates = 100;  // up to 18 t/h

}  // namespace

LossByRate::LossByRate(const MachineResult& machine) {
    const LossMemory& known = machine.loss_memory;
    for (std::size_t i = 0; i < kRates; ++i) {
        LossBook book(machine.curve.rated_feed_kgps, machine.feed_per_pea);
        book.add(Real(1), static_cast<Real>((static_cast<double>(i) + 0.5) * kRateStepKgps), Real(0));
        const LossSoFar told = book.so_far(machine.curve, known.level_variance, known.ln_picking_variance,
                                           known.level_with_picking);
        const auto lost = static_cast<double>(told.lost_kg);
        // d ln(share) = kept x d ln(lost)
        entries_.push_back({lost, static_cast<double>(told.shares.ln_total_sd) * (1.0 + lost)});
    }
}

const LossByRate::Entry& LossByRate::entry(double passed_kgps) const {
    const double place = std::clamp(passed_kgps / kRateStepKgps, 0.0, static_cast<double>(kRates - 1));
    return entries_[static_cast<std::size_t>(place)];
}

double LossByRate::lost_per_kg(double passed_kgps) const {
    return entry(passed_kgps).lost_per_kg;
}

double LossByRate::ln_sd(double passed_kgps) const {
    return entry(passed_kgps).ln_sd;
}

}  // namespace podrate::sim
