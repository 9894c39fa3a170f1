#include "hours/freshness.hpp"

#include <algorithm>

namespace podrate::sim {
namespace {

constexpr double kTracedShare = 0.5;

const LoadParcels* parcels_of(const MachineResult& machine, std::uint32_t load) {
    const auto found = std::find_if(machine.parcels.begin(), machine.parcels.end(),
                                    [load](const LoadParcels& p) { return p.number == load; });
    return found == machine.parcels.end() ? nullptr : &*found;
}

// Age and kg of each parcel, oldest first.
struct Aged {
    double age_min;
    double kg;
};

// Even within a parcel, whose peas came over kParcelUs.
double median_age_min(const std::vector<Aged>& aged, double all_kg) {
    double older_kg = 0.0;
    for (const Aged& a : aged) {
        if (older_kg + a.kg < 0.5 * all_kg || a.kg <= 0.0) {
            older_kg += a.kg;
            continue;
        }
        const double along = (0.5 * all_kg - older_kg) / a.kg;
        return a.age_min + (0.5 - along) * static_cast<double>(kParcelUs) / 60e6;
    }
    return aged.back().age_min;
}

Freshness fresh_load(const Load& load, const LoadParcels* parcels, double drum_s, const HoursKeys& keys) {
    const bool from_cutting = keys.fresh_from == FreshFrom::cutting;
    const auto at_intake = [&](double age_min) { return (from_cutting ? age_min : 0.0) + keys.road_min; };
    Freshness fresh;
    fresh.load = load.number;
    fresh.tipped_us = load.end_us;
    fresh.net_kg = static_cast<double>(load.net_kg);
    fresh.oldest_min = static_cast<double>(load.end_us - load.first_cut_us) / 60e6;
    fresh.intake_oldest_min = at_intake(fresh.oldest_min);
    std::vector<Aged> aged;
    if (parcels != nullptr) {
        for (const Parcel& p : parcels->parcels) {
            const double age_min = (static_cast<double>(load.end_us - p.in_us) / 1e6 + drum_s) / 60.0;
            // The drum's last peas come while the load pours out.
            aged.push_back({std::clamp(age_min, 0.0, std::max(0.0, fresh.oldest_min)), p.kg});
            fresh.traced_kg += p.kg;
        }
    }
    if (fresh.traced_kg <= 0.0 || fresh.traced_kg < kTracedShare * fresh.net_kg) return fresh;
    std::stable_sort(aged.begin(), aged.end(),
                     [](const Aged& a, const Aged& b) { return a.age_min > b.age_min; });
    fresh.median_min =
        std::clamp(median_age_min(aged, fresh.traced_kg), 0.0, std::max(0.0, fresh.oldest_min));
    fresh.intake_median_min = at_intake(*fresh.median_min);
    double over_kg = 0.0;
    for (const Aged& a : aged) {
        if (at_intake(a.age_min) > keys.fresh_limit_min) over_kg += a.kg;
    }
    fresh.over_limit = over_kg / fresh.traced_kg;
    return fresh;
}

}  // namespace

std::vector<Freshness> freshness_of(const MachineResult& machine, const HoursKeys& keys) {
    std::vector<Freshness> all;
    const double drum_s = machine.drum_dead_time_s + machine.drum_lag_s;
    for (const Load& load : machine.loads)
        all.push_back(fresh_load(load, parcels_of(machine, load.number), drum_s, keys));
    return all;
}

}  // namespace podrate::sim
