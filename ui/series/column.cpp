#include "series/column.hpp"

#include <algorithm>
#include <cmath>

#include "log/units.hpp"

namespace podrate::ui {
namespace {

constexpr auto kReach = static_cast<float>(sim::kReach90);

template <class Value>
std::size_t bytes_of(const std::vector<Value>& vector) {
    return vector.capacity() * sizeof(Value);
}

}  // namespace

void Column::add(const std::vector<Millis>& kept_ms, bool kept, Millis at_ms, float new_value) {
    if (every_row && (!kept || value.size() + 1 != kept_ms.size())) {
        own_ms.assign(kept_ms.begin(), kept_ms.begin() + static_cast<std::ptrdiff_t>(value.size()));
        every_row = false;
    }
    if (!every_row) own_ms.push_back(at_ms);
    value.push_back(new_value);
}

void Column::seal(const std::vector<Millis>& kept_ms) {
    if (every_row && value.size() != kept_ms.size()) {
        own_ms.assign(kept_ms.begin(), kept_ms.begin() + static_cast<std::ptrdiff_t>(value.size()));
        every_row = false;
    }
    own_ms.shrink_to_fit();
    for (std::vector<float>* part : {&value, &sd, &low, &high}) part->shrink_to_fit();
    line_.build(value.size(), [this](std::size_t i) { return Extent{value[i], value[i]}; });
    if (!sd.empty()) {
        band_.build(value.size(), [this](std::size_t i) { return band_at(i); });
    } else if (!low.empty()) {
        band_.build(value.size(), [this](std::size_t i) { return Extent{low[i], high[i]}; });
    }
}

Extent Column::band_at(std::size_t index) const {
    if (!low.empty()) return {low[index], high[index]};
    const float half = sd.empty() ? 0.0F : kReach * sd[index];
    return {value[index] - half, value[index] + half};
}

Extent Column::line_over(std::size_t from, std::size_t to) const {
    return line_.over(from, to, [this](std::size_t i) { return Extent{value[i], value[i]}; });
}

Extent Column::band_over(std::size_t from, std::size_t to) const {
    if (low.empty() && sd.empty()) return line_over(from, to);
    return band_.over(from, to, [this](std::size_t i) { return band_at(i); });
}

void Column::fetch(std::size_t at) const {
    for (const std::vector<float>* part : {&value, &sd, &low, &high}) {
        if (at < part->size()) __builtin_prefetch(part->data() + at);
    }
    line_.fetch(at);
    band_.fetch(at);
}

std::size_t Column::bytes() const {
    return bytes_of(own_ms) + bytes_of(value) + bytes_of(sd) + bytes_of(low) + bytes_of(high) +
           line_.bytes() + band_.bytes();
}

std::size_t index_from(const std::vector<Millis>& times, double at_ms) {
    const auto first = std::lower_bound(times.begin(), times.end(), at_ms,
                                        [](Millis t, double wanted) { return t < wanted; });
    return static_cast<std::size_t>(first - times.begin());
}

std::optional<std::size_t> newest_at(const std::vector<Millis>& times, double at_ms) {
    const auto after = std::upper_bound(times.begin(), times.end(), at_ms,
                                        [](double wanted, Millis t) { return wanted < t; });
    if (after == times.begin()) return std::nullopt;
    if (at_ms - *(after - 1) > kLongestGapMs) return std::nullopt;
    return static_cast<std::size_t>(after - times.begin()) - 1;
}

void StepColumn::add(Millis moment_ms, std::uint16_t new_value) {
    if (!value.empty() && value.back() == new_value) return;
    at_ms.push_back(moment_ms);
    value.push_back(new_value);
}

std::optional<std::uint16_t> StepColumn::at(double moment_ms) const {
    const auto after = std::upper_bound(at_ms.begin(), at_ms.end(), moment_ms,
                                        [](double wanted, Millis t) { return wanted < t; });
    if (after == at_ms.begin()) return std::nullopt;
    return value[static_cast<std::size_t>(after - at_ms.begin()) - 1];
}

}  // namespace podrate::ui
