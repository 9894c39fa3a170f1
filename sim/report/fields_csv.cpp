#include "report/fields_csv.hpp"

#include "log/csv_record.hpp"
#include "log/number.hpp"

namespace podrate::sim {

std::string fields_csv(const DayResult& result) {
    std::string text =
        "field,field_ha,covered_ha,left_ha,beyond_ha,swept_ha,harvested_t,yield_tpha,loss_pct,loss_pct_low,"
        "loss_pct_high,lost_kgpha,lost_kgpha_low,lost_kgpha_high,machines,machine_hours,work_rate_haph,"
        "capacity_haph,efficiency_pct,cost,tenderometer,yield_adjusted_tpha,yield_adjusted_tpha_low,"
        "yield_adjusted_tpha_high\n";
    for (const FieldFigures& f : result.fields) {
        const auto add = [&text](bool known, double value, int decimals) {
            text += ',';
            if (known) append_fixed(text, value, decimals);
        };
        const bool on_ground = f.covered_m2 > 0.0;
        const Share loss = f.loss.value_or(Share{});
        text += csv_cell(f.name);
        add(f.bounded, f.field_m2 / 1e4, 4);
        add(!f.elsewhere, f.covered_m2 / 1e4, 4);
        add(f.bounded, f.left_m2 / 1e4, 4);
        add(f.bounded, f.beyond_m2 / 1e4, 4);
        add(true, f.swept_m2 / 1e4, 4);
        add(true, f.harvested_kg / 1e3, 4);
        add(on_ground, f.yield_tpha(), 3);
        for (const Real share : {loss.share, loss.low, loss.high})
            add(f.loss.has_value(), 100.0 * static_cast<double>(share), 2);
        for (const Real share : {loss.share, loss.low, loss.high})
            add(f.loss.has_value() && on_ground, f.lost_kg_per_ha(share), 1);
        add(true, f.machines, 0);
        add(true, f.in_field_h, 3);
        add(on_ground && f.in_field_h > 0.0, f.work_rate_ha_per_h, 3);
        add(f.in_field_h > 0.0, f.capacity_ha_per_h, 3);
        add(f.in_field_h > 0.0, 100.0 * f.efficiency, 1);
        add(f.cost.has_value(), f.cost.value_or(0.0), 2);
        const std::optional<AdjustedYield> ripe = adjusted_yield_of(f.name, result.maturity);
        const AdjustedYield adjusted = ripe.value_or(AdjustedYield{});
        add(ripe.has_value(), adjusted.reading.middle, 1);
        for (const double tpha :
             {adjusted.yield_tpha.middle, adjusted.yield_tpha.low, adjusted.yield_tpha.high})
            add(ripe.has_value(), tpha, 3);
        text += '\n';
    }
    return text;
}

}  // namespace podrate::sim
