// The C block of parameters as the estimator wants it.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/podrate.h"

namespace podrate::c_api {

Parameters parameters_of(const podrate_parameters& block);

}  // namespace podrate::c_api
