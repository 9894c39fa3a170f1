#include "podrate/parameters.hpp"

namespace podrate {

const ParameterInfo* first_invalid(const Parameters& parameters) {
    for (const ParameterInfo& info : kParameterTable) {
        const Real value = parameters.*info.member;
        const bool inside = value >= static_cast<Real>(info.low) && value <= static_cast<Real>(info.high);
        if (!inside) return &info;
    }
    return nullptr;
}

}  // namespace podrate
