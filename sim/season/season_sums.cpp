#include "season/season_sums.hpp"

#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace podrate::sim {
namespace {

std::optional<Share> loss_share_of(double harvested_kg, double lost_kg, double lost_sd_kg) {
    if (lost_kg <= 0.0 || harvested_kg <= 0.0) return std::nullopt;
    const double all_kg = harvested_kg + lost_kg;
    const double ln_sd = harvested_kg / all_kg * lost_sd_kg / lost_kg;
    return share_with_interval(static_cast<Real>(lost_kg / all_kg), static_cast<Real>(ln_sd));
}

void add_machine(const SeasonMachine& m, SeasonSum& sum) {
    sum.harvested_kg += m.harvested_kg;
    sum.swept_m2 += m.area_m2;
    sum.lost_kg += m.lost_kg;
    sum.lost_sd_kg += m.lost_sd_kg;
    sum.harvesting_s += m.harvesting_s;
    sum.loads += m.loads;
}

SeasonSum sum_of_day(const DayFigures& day) {
    SeasonSum sum;
    sum.name = day.label;
    if (!day.counts()) return sum;
    sum.days = 1;
    double variance_kg2 = 0.0;
    for (const SeasonMachine& m : day.machines) {
        if (!m.usable) continue;
        ++sum.machines;
        add_machine(m, sum);
        variance_kg2 += m.harvested_sd_kg * m.harvested_sd_kg;
    }
    sum.harvested_sd_kg = std::sqrt(variance_kg2);
    for (const SeasonField& field : day.fields) sum.covered_m2 += field.covered_m2;
    sum.planned_t = day.planned_t;
    return sum;
}

// What a field is called over a season, and where it stands in the list.
std::pair<int, std::string> season_name(const SeasonField& field) {
    if (field.elsewhere) return {2, "elsewhere"};
    if (!field.bounded) return {1, "without a boundary"};
    return {0, field.name};
}

class FieldSums {
  public:
    void add(const DayFigures& day) {
        std::set<std::pair<int, std::string>> met;
        for (const SeasonShare& share : day.shares) {
            const auto key = season_name(day.fields[share.field]);
            SeasonSum& sum = sums_[key];
            sum.harvested_kg += share.harvested_kg;
            sum.swept_m2 += share.swept_m2;
            sum.lost_kg += share.lost_kg;
            sum.lost_sd_kg += share.lost_sd_kg;
            sum.harvesting_s += share.harvesting_s;
            if (share.swept_m2 <= 0.0) continue;
            met.insert(key);
            machines_[key].insert(day.machines[share.machine].id);
        }
        for (const SeasonField& field : day.fields) {
            if (field.covered_m2 > 0.0) sums_[season_name(field)].covered_m2 += field.covered_m2;
        }
        for (const auto& key : met) ++sums_[key].days;
    }
    [[nodiscard]] std::vector<SeasonSum> sums() {
        constexpr double kLeastKg = 0.5;
        constexpr double kLeastM2 = 0.5;
        std::vector<SeasonSum> list;
        for (auto& [key, sum] : sums_) {
            if (std::abs(sum.harvested_kg) < kLeastKg && sum.swept_m2 < kLeastM2) continue;
            sum.name = key.second;
            sum.machines = static_cast<int>(machines_[key].size());
            list.push_back(sum);
        }
        return list;
    }

  private:
    std::map<std::pair<int, std::string>, SeasonSum> sums_;
    std::map<std::pair<int, std::string>, std::set<std::string>> machines_;
};

}  // namespace

std::optional<Share> SeasonSum::loss() const {
    return loss_share_of(harvested_kg, lost_kg, lost_sd_kg);
}

std::optional<Share> loss_of(const SeasonShare& share) {
    return loss_share_of(share.harvested_kg, share.lost_kg, share.lost_sd_kg);
}

SeasonSums season_sums(const std::vector<DayFigures>& days) {
    SeasonSums sums;
    FieldSums fields;
    std::map<std::string, SeasonSum> machines;
    for (const DayFigures& day : days) {
        sums.days.push_back(sum_of_day(day));
        const SeasonSum& of_day = sums.days.back();
        sums.total.days += of_day.days;
        sums.total.covered_m2 += of_day.covered_m2;
        if (of_day.planned_t) sums.total.planned_t = sums.total.planned_t.value_or(0.0) + *of_day.planned_t;
        if (!day.counts()) continue;
        fields.add(day);
        for (const SeasonMachine& m : day.machines) {
            if (!m.usable) continue;
            add_machine(m, sums.total);
            SeasonSum& sum = machines[m.id];
            sum.machines = 1;
            ++sum.days;
            sum.harvested_sd_kg += m.harvested_sd_kg;
            add_machine(m, sum);
        }
    }
    double variance_kg2 = 0.0;
    for (auto& [id, sum] : machines) {
        sum.name = id;
        variance_kg2 += sum.harvested_sd_kg * sum.harvested_sd_kg;
        sums.machines.push_back(sum);
    }
    sums.total.name = "total";
    sums.total.machines = static_cast<int>(machines.size());
    sums.total.harvested_sd_kg = std::sqrt(variance_kg2);
    sums.fields = fields.sums();
    return sums;
}

}  // namespace podrate::sim
