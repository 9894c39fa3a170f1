#include "report/loss_figures.hpp"

namespace podrate::sim {

LossShares loss_parts(const MachineResult& machine) {
    if (machine.lost.collected_kg > Real(0)) return machine.lost.shares;
    const Estimate& e = machine.last;
    LossShares parts;
    parts.total = {e.loss_share, e.loss_low, e.loss_high};
    parts.drum = {e.drum_loss_share, e.drum_loss_low, e.drum_loss_high};
    parts.picking = {e.picking_loss_share, e.picking_loss_low, e.picking_loss_high};
    return parts;
}

std::optional<RangedFigure> lost_kg(const MachineResult& machine) {
    const LossSoFar& lost = machine.lost;
    if (lost.collected_kg <= Real(0)) return std::nullopt;
    const auto beside_collected = [&lost](Real share) {
        return share < Real(1)
                   ? static_cast<double>(lost.collected_kg) * static_cast<double>(share / (Real(1) - share))
                   : 0.0;
    };
    return RangedFigure{static_cast<double>(lost.lost_kg), beside_collected(lost.shares.total.low),
                        beside_collected(lost.shares.total.high)};
}

std::optional<RangedFigure> ground_kg_per_ha(const MachineResult& machine) {
    std::optional<RangedFigure> figure = lost_kg(machine);
    const double area_ha = static_cast<double>(machine.last.area_m2) / 1e4;
    if (!figure || area_ha <= 0.0) return std::nullopt;
    return RangedFigure{figure->value / area_ha, figure->low / area_ha, figure->high / area_ha};
}

}  // namespace podrate::sim
