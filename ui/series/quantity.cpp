#include "series/quantity.hpp"

#include <cstddef>

namespace podrate::ui {
namespace {

constexpr QuantityFacts kFacts[kQuantities] = {
    {"Load rate", "t/h", 1, true},    {"Yield", "t/ha", 2, true},         {"Loss", "%", 1, true},
    {"Hopper", "kg", 0, true},        {"Hopper level", "%", 0, true},     {"Harvested", "t", 2, true},
    {"Speed", "km/h", 1, true},       {"Weight", "kg", 0, true},          {"Weigh cell 1", "kg", 0, false},
    {"Weigh cell 2", "kg", 0, false}, {"Weigh cell 3", "kg", 0, false},   {"Weigh cell 4", "kg", 0, false},
    {"Pitch", "\xC2\xB0", 1, false},  {"Roll", "\xC2\xB0", 1, false},     {"Heading", "\xC2\xB0", 0, true},
    {"Drum speed", "1/min", 0, true}, {"Loss sensor", "hits/s", 1, true},
};

}  // namespace

const QuantityFacts& facts_of(Quantity quantity) {
    return kFacts[static_cast<std::size_t>(quantity)];
}

}  // namespace podrate::ui
