#include "fields/field_shares.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr double kFieldHoldsS = 300.0;  // that a machine without a place is taken to be in the same field
constexpr double kLeastStretchS = 0.1;

// Peas of each point by yield and area. The estimator tells the yield of a place once its peas are through
// the drum. Where no area is known, by what the hopper gained.
std::vector<double> peas_by_place(const MachineResult& machine) {
    const std::vector<WorkPoint>& points = machine.work;
    const auto late_us = static_cast<TimeUs>(machine.drum_dead_time_s * 1e6);
    std::vector<double> kg;
    double sum_kg = 0.0;
    std::size_t told = 0;
    for (const WorkPoint& point : points) {
        while (told + 1 < points.size() && points[told].time_us < point.time_us + late_us) ++told;
        const double here_kg =
            static_cast<double>(point.area_m2) * std::max(0.0, static_cast<double>(points[told].yield_kgpm2));
        kg.push_back(here_kg);
        sum_kg += here_kg;
    }
    if (sum_kg <= 0.0) {
        for (std::size_t i = 0; i < points.size(); ++i) {
            kg[i] = std::max(0.0, static_cast<double>(points[i].gained_kg));
            sum_kg += kg[i];
        }
    }
    if (sum_kg <= 0.0) return kg;
    const double scale = static_cast<double>(machine.last.harvested_kg) / sum_kg;
    for (double& here_kg : kg) here_kg *= scale;
    return kg;
}

// The machine's loss goes to its fields as its loss book would tell each of them.
void share_loss(const MachineResult& machine, const std::vector<LossBook>& books,
                std::vector<FieldShare>& shares) {
    std::vector<LossSoFar> told;
    double sum_kg = 0.0;
    for (const LossBook& book : books) {
        told.push_back(book.so_far(machine.curve, machine.loss_memory.level_variance,
                                   machine.loss_memory.ln_picking_variance,
                                   machine.loss_memory.level_with_picking));
        sum_kg += static_cast<double>(told.back().lost_kg);
    }
    if (sum_kg <= 0.0) return;
    const double scale = static_cast<double>(machine.lost.lost_kg) / sum_kg;
    for (std::size_t f = 0; f < shares.size(); ++f) {
        if (told[f].collected_kg <= Real(0)) continue;
        const auto lost_kg = static_cast<double>(told[f].lost_kg);
        const double kept =
            static_cast<double>(told[f].collected_kg) / (static_cast<double>(told[f].collected_kg) + lost_kg);
        shares[f].lost_kg = scale * lost_kg;
        // d ln(share) = kept x d ln(lost)
        shares[f].lost_sd_kg = shares[f].lost_kg * static_cast<double>(told[f].shares.ln_total_sd) / kept;
    }
}

}  // namespace

Whereabouts whereabouts(const std::vector<WorkPoint>& points, const FieldFinder& finder) {
    const std::size_t elsewhere = finder.count();
    Whereabouts where;
    std::size_t held = elsewhere;
    TimeUs placed_us = 0;
    for (const WorkPoint& point : points) {
        std::size_t cut = elsewhere;
        if (point.placed) {
            const int here = finder.at(point.place());
            if (here >= 0) cut = held = static_cast<std::size_t>(here);
            placed_us = point.time_us;
        } else {
            if (static_cast<double>(point.time_us - placed_us) / 1e6 > kFieldHoldsS) held = elsewhere;
            cut = held;
        }
        where.cut.push_back(cut);
        where.time.push_back(held);
    }
    return where;
}

std::vector<FieldShare> field_shares(const MachineResult& machine, const FieldFinder& finder) {
    const std::size_t elsewhere = finder.count();
    std::vector<FieldShare> shares(elsewhere + 1);
    if (!machine.usable) return shares;
    std::vector<LossBook> books(shares.size(), LossBook(machine.curve.rated_feed_kgps, machine.feed_per_pea));
    const Whereabouts where = whereabouts(machine.work, finder);
    const std::vector<double> kg = peas_by_place(machine);
    double sum_kg = 0.0;
    for (std::size_t i = 0; i < machine.work.size(); ++i) {
        const WorkPoint& point = machine.work[i];
        FieldShare& cut = shares[where.cut[i]];
        cut.swept_m2 += static_cast<double>(point.area_m2);
        cut.harvested_kg += kg[i];
        cut.cut_kg_s += kg[i] * static_cast<double>(point.time_us) / 1e6;
        if (point.area_m2 > 0.0F) cut.last_cut_us = point.time_us;
        sum_kg += kg[i];
        FieldShare& spent = shares[where.time[i]];
        spent.harvesting_s += static_cast<double>(point.harvesting_s);
        spent.in_field_s += static_cast<double>(point.in_field_s);
        if (i == 0 || point.area_m2 <= 0.0F) continue;
        const double lasted_s = static_cast<double>(point.time_us - machine.work[i - 1].time_us) / 1e6;
        books[where.cut[i]].add(static_cast<Real>(kg[i]),
                                static_cast<Real>(kg[i] / std::max(lasted_s, kLeastStretchS)), Real(0));
    }
    // What no point can take: nothing was cut by any of them.
    shares[elsewhere].harvested_kg += static_cast<double>(machine.last.harvested_kg) - sum_kg;
    share_loss(machine, books, shares);
    return shares;
}

}  // namespace podrate::sim
