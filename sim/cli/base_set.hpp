// The parameter set that a tuning begins from, and the entry of the one it makes.
#pragma once

#include <optional>
#include <string>

#include "parameters/parameter_file.hpp"

namespace podrate::sim {

struct BaseSet {
    std::string file;  // as given; empty: the machines' own values
    std::optional<KeptSet> kept;

    [[nodiscard]] std::optional<ParameterSet> set() const;
};

// Throws RefusedInput.
BaseSet read_base(const std::string& file);

// Of a set that is made now. machine, own_mark: whose own values it was made from where there is no base.
SetEntry entry_now(const BaseSet& base, const std::string& machine, const std::string& own_mark,
                   const std::string& who, const std::string& note);

}  // namespace podrate::sim
