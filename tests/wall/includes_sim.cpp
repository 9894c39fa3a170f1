// Compiled with the core's include path it must fail, with sim's it must not.
#include "log/problem.hpp"
#include "podrate/estimator.hpp"
