// podrate tune --loss-prior.
#pragma once

#include <string>

#include "tune/loss_of_days.hpp"

namespace podrate::sim {

struct TuneLossCall {
    LossDays days;
    std::string out;
    std::string parameters;  // file of a set, or empty
    std::string who;
    bool quiet = false;
};

// Writes loss_prior.csv, .html and .toml. Gives the exit code; throws RefusedInput.
int run_tune_loss(TuneLossCall& call);

}  // namespace podrate::sim
