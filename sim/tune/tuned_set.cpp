#include "tune/tuned_set.hpp"

#include <cmath>

namespace podrate::sim {

ParameterSet tuned_set(const TuneTable& table, std::size_t setting, const std::optional<KeptSet>& base,
                       const SetEntry& made) {
    ParameterSet set;
    if (base) {
        set = base->set;
        set.history.push_back(base->set.made);
    }
    set.made = made;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        const double value = table.settings[setting].values[i];
        if (std::isnan(value)) continue;
        for (std::size_t p = 0; p < kParameterCount; ++p) {
            if (table.parameters[i] == kParameterTable[p].name) set.values[p] = static_cast<Real>(value);
        }
    }
    return set;
}

}  // namespace podrate::sim
