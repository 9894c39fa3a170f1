// Problems on standard error.
#pragma once

#include "log/problem.hpp"

namespace podrate::sim {

void tell_problems(const Problems& problems);

}  // namespace podrate::sim
