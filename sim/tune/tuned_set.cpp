#include "tune/tuned_set.hpp"

#include "tune/setting_choice.hpp"

namespace podrate::sim {

ParameterSet tuned_set(const TuneTable& table, std::size_t setting, const std::optional<ParameterSet>& base,
                       const SetEntry& made) {
    ParameterSet set = set_after(base, made);
    const std::vector<double>& now = table.settings[0].values;
    const std::vector<double>& then = table.settings[setting].values;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        if (same_value(now[i], then[i])) continue;
        for (std::size_t p = 0; p < kParameterCount; ++p) {
            if (table.parameters[i] == kParameterTable[p].name) set.values[p] = static_cast<Real>(then[i]);
        }
    }
    return set;
}

}  // namespace podrate::sim
