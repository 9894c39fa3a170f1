#include "fields/field_figures.hpp"

#include <algorithm>
#include <cmath>

#include "analysis/field_capacity.hpp"
#include "fields/field_ground.hpp"
#include "fields/field_shares.hpp"
#include "fields/finder_of_day.hpp"

namespace podrate::sim {
namespace {

constexpr double kLeastElsewhereKg = 0.5;
constexpr double kLeastElsewhereM2 = 0.5;

std::vector<CutStrip> strips_of(const std::vector<MachineResult>& machines) {
    std::vector<CutStrip> all;
    for (const MachineResult& machine : machines) {
        if (!machine.usable) continue;
        for (CutStrip& strip : cut_strips(machine.work, static_cast<double>(machine.parameters.width_m)))
            all.push_back(std::move(strip));
    }
    return all;
}

// Adds up the machines in one field.
class FieldSum {
  public:
    void add(const MachineResult& result, const Machine& machine, const FieldShare& share) {
        figures_.swept_m2 += share.swept_m2;
        figures_.harvested_kg += share.harvested_kg;
        cut_kg_s_ += share.cut_kg_s;
        figures_.last_cut_us = std::max(figures_.last_cut_us, share.last_cut_us);
        lost_kg_ += share.lost_kg;
        lost_sd_kg_ += share.lost_sd_kg;
        if (share.swept_m2 <= 0.0) return;
        ++figures_.machines;
        const double hours = share.in_field_s / 3600.0;
        figures_.in_field_h += hours;
        harvesting_h_ += share.harvesting_s / 3600.0;
        const auto width_m = static_cast<double>(result.parameters.width_m);
        capacity_ha_ +=
            hours *
            field_work(share.swept_m2, width_m, share.harvesting_s, share.in_field_s).capacity_ha_per_h;
        if (machine.cost_per_h) {
            cost_ += hours * *machine.cost_per_h;
        } else {
            cost_known_ = false;
        }
    }
    FieldFigures figures(const FieldGround& ground) {
        FieldFigures f = figures_;
        f.field_m2 = ground.own_m2;
        f.covered_m2 = ground.covered_m2;
        f.left_m2 = std::max(0.0, ground.own_m2 - ground.covered_m2);
        f.beyond_m2 = ground.beyond_m2;
        if (f.harvested_kg > 0.0) f.mean_cut_unix_s = cut_kg_s_ / f.harvested_kg;
        if (f.in_field_h > 0.0) {
            f.work_rate_ha_per_h = f.covered_m2 / 1e4 / f.in_field_h;
            f.capacity_ha_per_h = capacity_ha_ / f.in_field_h;
            f.efficiency = harvesting_h_ / f.in_field_h;
        }
        if (cost_known_ && f.machines > 0) f.cost = cost_;
        if (lost_kg_ > 0.0 && f.harvested_kg > 0.0) {
            const double all_kg = f.harvested_kg + lost_kg_;
            const double ln_sd = f.harvested_kg / all_kg * lost_sd_kg_ / lost_kg_;
            f.loss = share_with_interval(static_cast<Real>(lost_kg_ / all_kg), static_cast<Real>(ln_sd));
        }
        return f;
    }

  private:
    FieldFigures figures_;
    double cut_kg_s_ = 0.0;
    double lost_kg_ = 0.0;
    double lost_sd_kg_ = 0.0;  // in one crop machines may well be wrong the same way
    double harvesting_h_ = 0.0;
    double capacity_ha_ = 0.0;
    double cost_ = 0.0;
    bool cost_known_ = true;
};

}  // namespace

double FieldFigures::lost_kg_per_ha(Real share) const {
    const auto lost = static_cast<double>(share);
    if (covered_m2 <= 0.0 || lost >= 1.0) return 0.0;
    return harvested_kg * lost / (1.0 - lost) / (covered_m2 / 1e4);
}

std::vector<FieldFigures> field_figures(const Day& day, const std::vector<MachineResult>& machines) {
    const FieldFinder finder = finder_of_day(day, machines);
    if (finder.count() == 0) return {};
    const std::vector<FieldGround> grounds = field_ground(day.fields, finder, strips_of(machines));
    std::vector<FieldSum> sums(finder.count() + 1);
    for (std::size_t m = 0; m < machines.size(); ++m) {
        if (!machines[m].usable) continue;
        const std::vector<FieldShare> shares = field_shares(machines[m], finder);
        for (std::size_t f = 0; f < shares.size(); ++f) sums[f].add(machines[m], day.machines[m], shares[f]);
    }
    std::vector<FieldFigures> fields;
    for (std::size_t f = 0; f < finder.count(); ++f) {
        fields.push_back(sums[f].figures(grounds[f]));
        fields.back().name = finder.name(f);
        fields.back().bounded = finder.bounded(f);
    }
    FieldFigures elsewhere = sums.back().figures({});
    if (std::abs(elsewhere.harvested_kg) >= kLeastElsewhereKg || elsewhere.swept_m2 >= kLeastElsewhereM2) {
        elsewhere.name = "elsewhere";
        elsewhere.elsewhere = true;
        fields.push_back(elsewhere);
    }
    return fields;
}

}  // namespace podrate::sim
