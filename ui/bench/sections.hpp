// The parameters in groups, as the table has them.
#pragma once

#include <cstddef>
#include <vector>

#include "text/text.hpp"

namespace podrate::ui {

struct ParameterSection {
    Text name;
    std::size_t from;  // places in the table, [from, to)
    std::size_t to;
};

const std::vector<ParameterSection>& parameter_sections();

}  // namespace podrate::ui
