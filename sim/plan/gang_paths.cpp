#include "plan/gang_paths.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/quantile.hpp"

namespace podrate::sim {
namespace {

// Speeds that are tried, as factors on the present one.
constexpr std::array<double, 7> kPaces = {0.7, 0.85, 1.0, 1.15, 1.3, 1.5, 1.8};
constexpr std::size_t kPresent = 2;  // where the factor is 1
constexpr std::size_t kPacedPaths = 200;
constexpr std::size_t kAsItIs = kPaces.size();  // in place of a pace: as many paths as there are
constexpr std::size_t kNobody = ~std::size_t{0};

const MachineResult& result_of(const DayResult& result, const std::string& id) {
    return *std::find_if(result.machines.begin(), result.machines.end(),
                         [&id](const MachineResult& m) { return m.id == id; });
}

// Where a falling chance comes down to `wanted`, in points of the grid.
BackBy back_by(const Forecast& f, const std::vector<double>& chance, double wanted) {
    if (chance.front() < wanted) return {BackBy::Verdict::too_late, f.now_us};
    for (std::size_t k = 1; k < chance.size(); ++k) {
        if (chance[k] >= wanted) continue;
        const double along = (chance[k - 1] - wanted) / (chance[k - 1] - chance[k]);
        const double after_s = f.grid.step_s * (static_cast<double>(k - 1) + along);
        return {BackBy::Verdict::by, f.now_us + static_cast<TimeUs>(1e6 * after_s)};
    }
    return {BackBy::Verdict::not_needed, f.end_us};
}

}  // namespace

GangPaths::GangPaths(const GangBooks& books, const DayResult& result, const ForecastKeys& keys,
                     const PathGrid& grid)
    : model_(gang_model(books, keys)),
      grid_(grid),
      repair_s_(60.0 * keys.repair_min),
      paths_(static_cast<std::size_t>(keys.paths)) {
    const auto seed = static_cast<std::uint64_t>(keys.seed);
    std::vector<PathDraws> draws;
    for (std::size_t path = 0; path < paths_; ++path)
        draws.push_back(draw_path(model_, seed, path, grid.end_s()));
    const std::vector<PathDraws> fewer(
        draws.begin(), draws.begin() + static_cast<std::ptrdiff_t>(std::min(paths_, kPacedPaths)));
    for (std::size_t i = 0; i < model_.machines.size(); ++i) {
        const auto walk = [&](const std::vector<PathDraws>& of, Begin begin, double pace) {
            return MachinePaths(model_, i, of, seed, grid, begin, pace);
        };
        const bool stopped = model_.machines[i].doing == Doing::stopped;
        MachinePaths as_it_is = walk(draws, Begin::as_it_is, 1.0);
        MachinePaths at_work = stopped ? walk(draws, Begin::at_work, 1.0) : as_it_is;
        OneMachine m{std::move(as_it_is),
                     std::move(at_work),
                     SpeedCost(result_of(result, model_.machines[i].id)),
                     {},
                     {},
                     stopped};
        for (const double speed : kPaces) {
            m.paced.push_back(walk(fewer, Begin::as_it_is, m.cost.pace(speed)));
            if (stopped) m.paced_at_work.push_back(walk(fewer, Begin::at_work, m.cost.pace(speed)));
        }
        machines_.push_back(std::move(m));
    }
}

double GangPaths::kg_of(const OneMachine& m, std::size_t pace, const PlanCase& c, std::size_t machine,
                        std::size_t path, std::size_t point) const {
    const bool own = machine != kNobody && &m == &machines_[machine];
    if (own && c.kind == PlanCase::Kind::without) return 0.0;
    const bool repaired = own && c.kind == PlanCase::Kind::repair;
    const MachinePaths* paths = &m.as_it_is;
    if (pace == kAsItIs) {
        if (repaired) paths = &m.at_work;
    } else {
        paths = repaired && m.stopped ? &m.paced_at_work[pace] : &m.paced[pace];
    }
    return repaired ? paths->kg_late(path, point, repair_s_) : paths->kg(path, point);
}

void GangPaths::tell_case(const Forecast& f, std::size_t machine, PlanCase& c) const {
    std::vector<double> t(paths_);
    for (std::size_t point = 0; point < grid_.points(); ++point) {
        for (std::size_t path = 0; path < paths_; ++path) {
            double kg = 0.0;
            for (const OneMachine& m : machines_) kg += kg_of(m, kAsItIs, c, machine, path, point);
            t[path] = f.delivered_t + kg / 1e3;
        }
        if (point == grid_.steps) {
            const auto met =
                std::count_if(t.begin(), t.end(), [&f](double x) { return x >= f.planned_end_t; });
            c.chance = static_cast<double>(met) / static_cast<double>(paths_);
        }
        Quantiles q;
        q.low90 = quantile(t, 0.05);
        q.low50 = quantile(t, 0.25);
        q.median = quantile(t, 0.5);
        q.high50 = quantile(t, 0.75);
        q.high90 = quantile(t, 0.95);
        c.delivered_t.push_back(q);
    }
}

double GangPaths::limit_of(std::size_t machine, const PlanCase& c) const {
    double sum = 0.0;
    double weight = 0.0;
    for (std::size_t i = 0; i < machines_.size(); ++i) {
        if (i == machine && c.kind == PlanCase::Kind::without) continue;
        const SpeedCost& cost = machines_[i].cost;
        sum += cost.rate_kgps() * cost.held(kPaces.back());
        weight += cost.rate_kgps();
    }
    return weight > 0.0 ? sum / weight : 1.0;
}

void GangPaths::tell_cost(const Forecast& f, std::size_t machine, const PlanCase& c, SpeedNeed& need) const {
    double weight = 0.0;
    LostShare now;
    LostShare then;
    double beside_now = 0.0;  // left on the ground for each t collected
    double beside_then = 0.0;
    const auto add = [](LostShare& to, const LostShare& share, double by) {
        to.share += by * share.share;
        to.low += by * share.low;
        to.high += by * share.high;
    };
    for (std::size_t i = 0; i < machines_.size(); ++i) {
        if (i == machine && c.kind == PlanCase::Kind::without) continue;
        const SpeedCost& cost = machines_[i].cost;
        const LostShare one_now = cost.lost(1.0);
        const LostShare one_then = cost.lost(need.factor);
        const double by = cost.rate_kgps();
        add(now, one_now, by);
        add(then, one_then, by);
        beside_now += by * one_now.share / (1.0 - one_now.share);
        beside_then += by * one_then.share / (1.0 - one_then.share);
        weight += by;
    }
    if (weight <= 0.0) return;
    need.more_lost_points = 100.0 * (then.share - now.share) / weight;
    const double one = 100.0 * (then.low - now.low) / weight;
    const double other = 100.0 * (then.high - now.high) / weight;
    need.more_lost_low = std::min(one, other);
    need.more_lost_high = std::max(one, other);
    need.more_lost_t = std::max(0.0, f.planned_end_t - f.delivered_t) * (beside_then - beside_now) / weight;
}

SpeedNeed GangPaths::need_of(const Forecast& f, std::size_t machine, const PlanCase& c) const {
    const double wanted_kg = 1e3 * (f.planned_end_t - f.delivered_t);
    std::array<double, kPaces.size()> median_kg{};
    std::vector<double> kg(std::min(paths_, kPacedPaths));
    for (std::size_t pace = 0; pace < kPaces.size(); ++pace) {
        for (std::size_t path = 0; path < kg.size(); ++path) {
            kg[path] = 0.0;
            for (const OneMachine& m : machines_) kg[path] += kg_of(m, pace, c, machine, path, grid_.steps);
        }
        median_kg[pace] = quantile(kg, 0.5);
    }
    // So few paths tell what a speed changes better than where the middle lies: that all paths tell.
    const double off_kg = 1e3 * (c.delivered_t.back().median - f.delivered_t) - median_kg[kPresent];
    for (double& kg_at_pace : median_kg) kg_at_pace += off_kg;
    SpeedNeed need;
    need.limit = limit_of(machine, c);
    std::size_t at = 0;
    while (at < kPaces.size() && median_kg[at] < wanted_kg) ++at;
    if (at == kPaces.size()) return need;
    need.factor = kPaces[at];
    if (at > 0) {
        const double along = (wanted_kg - median_kg[at - 1]) / (median_kg[at] - median_kg[at - 1]);
        need.factor = kPaces[at - 1] + along * (kPaces[at] - kPaces[at - 1]);
    }
    need.verdict = need.factor > 1.0 ? SpeedNeed::Verdict::faster : SpeedNeed::Verdict::slower_will_do;
    tell_cost(f, machine, c, need);
    return need;
}

MachineBack GangPaths::back_of(const Forecast& f, std::size_t machine) const {
    std::vector<double> chance;
    for (std::size_t late = 0; late < grid_.points(); ++late) {
        std::size_t met = 0;
        for (std::size_t path = 0; path < paths_; ++path) {
            double kg = machines_[machine].at_work.kg(path, grid_.steps - late);
            for (std::size_t i = 0; i < machines_.size(); ++i)
                if (i != machine) kg += machines_[i].as_it_is.kg(path, grid_.steps);
            if (f.delivered_t + kg / 1e3 >= f.planned_end_t) ++met;
        }
        chance.push_back(static_cast<double>(met) / static_cast<double>(paths_));
    }
    MachineBack back;
    back.machine = model_.machines[machine].id;
    back.stopped_now = machines_[machine].stopped;
    back.even = back_by(f, chance, 0.5);
    back.nine_in_ten = back_by(f, chance, 0.9);
    return back;
}

void GangPaths::tell(Forecast& f) const {
    const auto add = [&](PlanCase::Kind kind, std::size_t machine) {
        PlanCase c;
        c.kind = kind;
        if (machine != kNobody) c.machine = model_.machines[machine].id;
        tell_case(f, machine, c);
        c.need = need_of(f, machine, c);
        f.cases.push_back(std::move(c));
    };
    add(PlanCase::Kind::all, kNobody);
    for (std::size_t i = 0; i < machines_.size(); ++i) add(PlanCase::Kind::without, i);
    for (std::size_t i = 0; i < machines_.size(); ++i) add(PlanCase::Kind::repair, i);
    for (std::size_t i = 0; i < machines_.size(); ++i) f.back.push_back(back_of(f, i));
}

}  // namespace podrate::sim
