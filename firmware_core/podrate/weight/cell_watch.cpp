#include "podrate/weight/cell_watch.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::cells;

Real CellWatch::expected_kg(const Cell& cell, Real others_kg) const {
    if (cell.spread_kg2 < kLeastSpreadKg2)
        return cell.mean_kg + (others_kg - cell.others_mean_kg) / static_cast<Real>(count_ - 1);
    return cell.mean_kg + cell.together_kg2 / cell.spread_kg2 * (others_kg - cell.others_mean_kg);
}

// Only while all are seen to move: one that has just died must not bend the lines of the others.
void CellWatch::learn(const Sample& weight, Real read_kg) {
    const Real since_s = seconds(weight.time_us - learnt_us_);
    const Real share = math::clamp(since_s / kMemoryS, Real(0), Real(0.1));
    learnt_us_ = weight.time_us;
    for (int i = 0; i < count_; ++i) {
        Cell& cell = cells_[i];
        const Real off_kg = static_cast<Real>(weight.value[i]) - cell.mean_kg;
        const Real others_off_kg = read_kg - static_cast<Real>(weight.value[i]) - cell.others_mean_kg;
        cell.mean_kg += share * off_kg;
        cell.others_mean_kg += share * others_off_kg;
        cell.spread_kg2 = (Real(1) - share) * (cell.spread_kg2 + share * others_off_kg * others_off_kg);
        cell.together_kg2 = (Real(1) - share) * (cell.together_kg2 + share * others_off_kg * off_kg);
    }
}

void CellWatch::judge(int index, TimeUs time_us, Real kg, Real others_kg) {
    Cell& cell = cells_[index];
    const unsigned bit = 1U << index;
    if (kg != cell.last_kg) {
        const Real step_kg = math::abs(kg - cell.last_kg);
        // A leap of one is no sign of peas to the others.
        for (int other = 0; step_kg > kAgreesKg && other < count_; ++other) {
            if (other != index) cells_[other].others_then_kg += kg - cell.last_kg;
        }
        if (cell.step_kg <= Real(0) || step_kg < cell.step_kg) cell.step_kg = step_kg;
        cell.last_kg = kg;
        cell.same_since_us = time_us;
        cell.others_then_kg = others_kg;
        if (math::abs(kg - expected_kg(cell, others_kg)) < kAgreesKg) dead_ &= ~bit;
        return;
    }
    const TimeUs same_us = time_us - cell.same_since_us;
    const Real step_kg = cell.step_kg > Real(0) ? cell.step_kg : kCoarsestKg;
    const Real limit_kg = kOthersMovedKg + kOthersMovedSteps * static_cast<Real>(count_ - 1) * step_kg;
    const bool moved = math::abs(others_kg - cell.others_then_kg) > limit_kg;
    if (same_us > kSameUs && moved) dead_ |= bit;
}

Real CellWatch::sum_kg(const Sample& weight) {
    Real read_kg = Real(0);
    for (int i = 0; i < weight.count; ++i) read_kg += static_cast<Real>(weight.value[i]);
    doubt_kg2_ = Real(0);
    if (weight.count < 2) {
        if (count_ != 0) *this = CellWatch();
        return read_kg;
    }
    if (weight.count != count_) {
        *this = CellWatch();
        count_ = weight.count;
        for (int i = 0; i < count_; ++i) {
            cells_[i].mean_kg = static_cast<Real>(weight.value[i]);
            cells_[i].others_mean_kg = read_kg - cells_[i].mean_kg;
            cells_[i].last_kg = cells_[i].mean_kg;
            cells_[i].others_then_kg = cells_[i].others_mean_kg;
            cells_[i].same_since_us = weight.time_us;
        }
        learnt_us_ = weight.time_us;
    }
    bool lively = true;
    for (int i = 0; i < count_; ++i) {
        const Real kg = static_cast<Real>(weight.value[i]);
        judge(i, weight.time_us, kg, read_kg - kg);
        lively = lively && weight.time_us - cells_[i].same_since_us <= kLivelyUs;
    }
    if (lively && dead_ == 0) learn(weight, read_kg);
    Real sum_kg = read_kg;
    for (int i = 0; i < count_; ++i) {
        if ((dead_ & (1U << i)) == 0) continue;
        const Real kg = static_cast<Real>(weight.value[i]);
        // With two dead the others no longer say enough: each takes the other as read.
        const Real stands_in_kg = expected_kg(cells_[i], read_kg - kg);
        sum_kg += stands_in_kg - kg;
        const Real doubt_kg = kDoubtKg + kDoubtShare * math::abs(stands_in_kg);
        doubt_kg2_ += doubt_kg * doubt_kg;
    }
    return sum_kg;
}

}  // namespace podrate
