#include "podrate/filter/delay_line.hpp"

namespace podrate {
namespace {

std::int64_t floor_div(std::int64_t a, std::int64_t b) {
    const std::int64_t quotient = a / b;
    return a % b < 0 ? quotient - 1 : quotient;
}

int slot(std::int64_t bin) {
    return static_cast<int>(bin & 255);
}

}  // namespace

void DelayLine::open_bins_to(std::int64_t bin) {
    if (bin <= newest_bin_) return;
    const std::int64_t steps = bin - newest_bin_ < kBins ? bin - newest_bin_ : kBins;
    for (std::int64_t i = 0; i < steps; ++i) area_m2_[slot(bin - i)] = Real(0);
    newest_bin_ = bin;
}

void DelayLine::add(TimeUs from_us, TimeUs to_us, Real area_m2) {
    if (to_us <= from_us) return;
    std::int64_t first = floor_div(from_us, kBinUs);
    const std::int64_t last = floor_div(to_us - 1, kBinUs);
    open_bins_to(last);
    const Real per_us = area_m2 / static_cast<Real>(to_us - from_us);
    if (last - first >= kBins) first = last - kBins + 1;
    for (std::int64_t bin = first; bin <= last; ++bin) {
        const TimeUs begin = bin * kBinUs > from_us ? bin * kBinUs : from_us;
        const TimeUs end = (bin + 1) * kBinUs < to_us ? (bin + 1) * kBinUs : to_us;
        area_m2_[slot(bin)] += per_us * static_cast<Real>(end - begin);
    }
}

Real DelayLine::between(TimeUs from_us, TimeUs to_us) const {
    std::int64_t first = floor_div(from_us, kBinUs);
    std::int64_t last = floor_div(to_us - 1, kBinUs);
    if (last > newest_bin_) last = newest_bin_;
    if (first <= newest_bin_ - kBins) first = newest_bin_ - kBins + 1;
    Real sum = Real(0);
    for (std::int64_t bin = first; bin <= last; ++bin) {
        const TimeUs begin = bin * kBinUs > from_us ? bin * kBinUs : from_us;
        const TimeUs end = (bin + 1) * kBinUs < to_us ? (bin + 1) * kBinUs : to_us;
        if (end <= begin) continue;
        sum += area_m2_[slot(bin)] * (static_cast<Real>(end - begin) / static_cast<Real>(kBinUs));
    }
    return sum;
}

}  // namespace podrate
