#include "podrate/filter/delay_line.hpp"

namespace podrate {
namespace {

template <class T>
T floor_div(T a, T b) {
    const T quotient = a / b;
    return a % b < 0 ? quotient - 1 : quotient;
}

}  // namespace

template <std::int32_t kBins>
std::int32_t TimeBins<kBins>::after_newest(TimeUs time_us) const {
    constexpr std::int32_t reach_us = kBins * kBinUs;
    const TimeUs after_us = time_us - newest_us_;
    if (after_us < -reach_us) return -reach_us;
    return after_us > kBinUs ? kBinUs : static_cast<std::int32_t>(after_us);
}

template <std::int32_t kBins>
void TimeBins<kBins>::open_bins_to(TimeUs time_us) {
    const TimeUs after_us = time_us - newest_us_;
    if (after_us < kBinUs) return;
    constexpr TimeUs reach_us = TimeUs(kBins) * kBinUs;
    const bool beyond = after_us >= reach_us;
    const std::int32_t steps = beyond ? kBins : static_cast<std::int32_t>(after_us) / kBinUs;
    for (std::int32_t i = 1; i <= steps; ++i) area_m2_[slot(i)] = Real(0);
    newest_slot_ = slot(steps);
    newest_us_ = beyond ? floor_div<TimeUs>(time_us, kBinUs) * kBinUs
                        : newest_us_ + static_cast<TimeUs>(steps * kBinUs);
}

template <std::int32_t kBins>
void TimeBins<kBins>::add(TimeUs from_us, TimeUs to_us, Real area_m2) {
    if (to_us <= from_us) return;
    open_bins_to(to_us - 1);
    const Real per_us = area_m2 / number_of_us(to_us - from_us);
    const std::int32_t from = after_newest(from_us);
    const std::int32_t to = after_newest(to_us);
    std::int32_t first = floor_div(from, kBinUs);
    const std::int32_t last = floor_div(to - 1, kBinUs);
    if (last - first >= kBins) first = last - kBins + 1;
    for (std::int32_t bin = first; bin <= last; ++bin) {
        const std::int32_t begin = bin * kBinUs > from ? bin * kBinUs : from;
        const std::int32_t end = (bin + 1) * kBinUs < to ? (bin + 1) * kBinUs : to;
        area_m2_[slot(bin)] += per_us * static_cast<Real>(end - begin);
    }
}

template <std::int32_t kBins>
Real TimeBins<kBins>::between(TimeUs from_us, TimeUs to_us) const {
    const std::int32_t from = after_newest(from_us);
    const std::int32_t to = after_newest(to_us);
    std::int32_t first = floor_div(from, kBinUs);
    const std::int32_t last = floor_div(to - 1, kBinUs);
    if (first <= -kBins) first = 1 - kBins;
    if (first > last) return Real(0);
    const auto part = [&](std::int32_t bin) {
        const std::int32_t begin = bin * kBinUs > from ? bin * kBinUs : from;
        const std::int32_t end = (bin + 1) * kBinUs < to ? (bin + 1) * kBinUs : to;
        if (end <= begin) return Real(0);
        return area_m2_[slot(bin)] * (static_cast<Real>(end - begin) / static_cast<Real>(kBinUs));
    };
    if (first == last) return part(first);
    // Two sums side by side: neither waits for the other's additions.
    Real sum = part(first);
    Real other = part(last);
    for (std::int32_t bin = first + 1; bin + 1 < last; bin += 2) {
        sum += area_m2_[slot(bin)];
        other += area_m2_[slot(bin + 1)];
    }
    const bool one_left = (last - first) % 2 == 0;
    return one_left ? sum + other + area_m2_[slot(last - 1)] : sum + other;
}

template class TimeBins<256>;
template class TimeBins<128>;

}  // namespace podrate
