#include "parameters/parameter_set.hpp"

#include <algorithm>
#include <cstdio>
#include <string_view>

#include "podrate/parameter_bytes.hpp"

namespace podrate::sim {
namespace {

constexpr ChangedKey kChangedKeys[] = {
    {"flow_noise_kgps", 1, "was dropped", "give flow_noise_share, a share of the flow, instead"},
    {"tip_residue_kg", 1, "was a standard deviation and is a mean now", "weigh what stays in the hopper"},
    {"picking_loss_share", 3, "was the low end of what is expected and is the middle now",
     "give the middle of picking_loss_low_share and picking_loss_high_share, as ln"},
};

}  // namespace

std::size_t ParameterSet::named() const {
    return static_cast<std::size_t>(
        std::count_if(values.begin(), values.end(), [](const auto& value) { return value.has_value(); }));
}

void ParameterSet::lay_over(Parameters& parameters) const {
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        if (values[i]) parameters.*kParameterTable[i].member = *values[i];
    }
}

ParameterSet set_after(const std::optional<ParameterSet>& base, const SetEntry& made) {
    ParameterSet set;
    if (base) {
        set = *base;
        set.history.push_back(base->made);
    }
    set.made = made;
    return set;
}

ParameterSet set_between(const Parameters& own, const Parameters& wanted) {
    ParameterSet set;
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        const Real value = wanted.*kParameterTable[i].member;
        if (value != own.*kParameterTable[i].member) set.values[i] = value;
    }
    return set;
}

std::string mark_of(std::string_view content) {
    std::uint64_t mark = 0xCBF29CE484222325U;  // offset basis and prime of FNV-1a, 64 bits
    for (const char c : content) mark = (mark ^ static_cast<std::uint8_t>(c)) * 0x100000001B3U;
    char digits[20];
    std::snprintf(digits, sizeof digits, "%016llx", static_cast<unsigned long long>(mark));
    return digits;
}

std::string mark_of(const Parameters& parameters) {
    std::array<std::uint8_t, kParameterBytes> bytes;
    pack_parameters(parameters, bytes.data());
    return mark_of(std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

const ChangedKey* changed_since(const std::string& key, std::uint32_t version) {
    for (const ChangedKey& changed : kChangedKeys) {
        if (key == changed.key && version <= changed.until_version) return &changed;
    }
    return nullptr;
}

}  // namespace podrate::sim
