// The page that tells what many days taught of the loss.
#pragma once

#include <string>

#include "tune/loss_of_days.hpp"

namespace podrate::sim {

// One page that needs nothing else. The same input gives the same bytes.
std::string loss_prior_html(const LossOfDays& told);

}  // namespace podrate::sim
