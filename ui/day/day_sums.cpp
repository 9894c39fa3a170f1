#include "day/day_sums.hpp"

#include "log/units.hpp"
#include "report/loss_figures.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {

DaySum sum_of(const sim::MachineResult& machine, const Speech& say) {
    DaySum sum;
    sum.name = machine.id;
    sum.refusal = machine.refusal;
    if (!machine.usable) return sum;
    const auto harvested_kg = static_cast<double>(machine.last.harvested_kg);
    const double reach_kg = sim::kReach90 * static_cast<double>(machine.last.harvested_sd_kg);
    sum.harvested = say(Text::give_or_take, {figure(say, Quantity::total_doubt, harvested_kg),
                                             with_unit(say, Quantity::total_doubt, reach_kg)});
    sum.area = with_unit(say, Quantity::area, static_cast<double>(machine.last.area_m2));
    sum.yield = with_unit(say, Quantity::yield, machine.yield_tpha() / sim::kTphaPerKgpm2);
    sum.rate = say(Text::while_cutting,
                   {with_unit(say, Quantity::rate, machine.load_rate_tph() / sim::kTphPerKgps)});
    const auto& total = sim::loss_parts(machine).total;
    sum.lost = say(Text::sum_lost,
                   {say(Text::with_range, {with_unit(say, Quantity::share, static_cast<double>(total.share)),
                                           figures(say, Quantity::share, static_cast<double>(total.low),
                                                   static_cast<double>(total.high))})});
    return sum;
}

}  // namespace podrate::ui
